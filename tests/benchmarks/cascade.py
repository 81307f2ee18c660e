"""How many answers are asked of a builder before the fault is named, and how many without that.

Run: .venv/bin/python tests/benchmarks/cascade.py [faults of each kind]
"""

import pathlib
import sys
from collections import Counter

ROOT = pathlib.Path(__file__).resolve().parent.parent.parent
sys.path[:0] = [str(ROOT), str(ROOT / "tests")]

from helpers import named_in_time  # noqa: E402
from helpers.dictionaries import profile_text  # noqa: E402
from helpers.scripts import SINGLE, spared  # noqa: E402
from termprobe.board.faults.catalogue import catalogue  # noqa: E402
from termprobe.cli.kept_dictionary import kept_dictionary  # noqa: E402

OF_EACH, AIM = 2, 6
BUILDERS = (named_in_time.read_out, named_in_time.picture, named_in_time.yes_or_no)


def spread(numbers):
    """Return median, mean and most of `numbers` in words."""
    ordered = sorted(numbers)
    within = sum(number <= AIM for number in ordered)
    mean = sum(ordered) / len(ordered)
    told = f"median {ordered[len(ordered) // 2]}, mean {mean:.1f}, most {ordered[-1]}"
    return f"{told}; at most {AIM} for {within} of {len(ordered)}"


def show(title, found):
    named = {name: one for name, one in found.items() if one.named}
    right = sum(name in one.named for name, one in named.items())
    print(f"\n{title}: named {len(named)} of {len(found)}, the true one in {right}")
    if named:
        print("  answers in all           ", spread(one.answers for one in named.values()))
        print("  since the first differed ", spread(one.since_first for one in named.values()))
        print("  looks that differed      ", spread(one.failed for one in named.values()))
    late = [name for name, one in named.items() if one.since_first > AIM]
    print("  later than the aim:", dict(Counter(name.split("/")[0] for name in late)) or "none")


def main():
    of_each = int(sys.argv[1]) if sys.argv[1:] else OF_EACH
    plan = named_in_time.looks_alone(spared("acceptance", "singlebyte-24x80"))
    dictionary = kept_dictionary(plan, SINGLE, profile_text())
    foresight = named_in_time.Foreseeing(SINGLE, plan, dictionary)
    faults = catalogue(SINGLE)
    names = named_in_time.sampled(dictionary, of_each)
    print(f"{len(names)} faults, {of_each} of each kind and block")
    before = [
        named_in_time.until_named(SINGLE, plan, faults[name], named_in_time.read_out)
        for name in names
    ]
    print("before: answers in all     ", spread(one.answers for one in before))
    print("before: looks that differed", spread(one.failed for one in before))
    for tells in BUILDERS:
        found = {
            name: named_in_time.until_named(SINGLE, plan, faults[name], tells, foresight)
            for name in names
        }
        show(tells.__name__, found)


if __name__ == "__main__":
    main()
