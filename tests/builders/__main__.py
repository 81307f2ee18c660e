"""Plays builders with given error rates on boards with faults, and prints how they fare.

    python -m tests.builders                                every part, by a sample
    python -m tests.builders pictures odds --count 100      two parts, of 100 faults each
    python -m tests.builders pictures --every               every fault that a look can show

All is drawn by --seed: the same seed plays the same builders. Each share stands with its exact 95 %
interval (Clopper and Pearson). A sample of one part takes a minute or two.
"""

import argparse
import time

from . import (
    cascade,
    coverage,
    good_boards,
    known_faults,
    odds,
    one_lie,
    pictures,
    two_faults,
    unmodelled,
    whole_screens,
    yes_and_no,
)
from .request import Request

PARTS = {
    "coverage": coverage,
    "whole-screens": whole_screens,
    "pictures": pictures,
    "yes-and-no": yes_and_no,
    "one-lie": one_lie,
    "odds": odds,
    "good-boards": good_boards,
    "unmodelled": unmodelled,
    "two-faults": two_faults,
    "known-faults": known_faults,
    "cascade": cascade,
}
"""Name of each part: its module, whose first line says what it is for."""
USUAL_ERRORS = (0.0, 0.05, 0.1)


def parsed():
    told = "".join(f"\n  {name:<15}{_first_line(part)}" for name, part in PARTS.items())
    parser = argparse.ArgumentParser(
        prog="python -m tests.builders",
        description=f"{__doc__}\nParts:{told}",
        formatter_class=argparse.RawDescriptionHelpFormatter,
    )
    parser.add_argument("parts", nargs="*", metavar="PART", help="all of them by default")
    parser.add_argument("--every", action="store_true", help="every fault, not a sample")
    parser.add_argument("--count", type=int, help="how many faults, boards or pairs in a sample")
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--errors", type=float, action="append", help="0, 0.05 and 0.1 by default")
    parser.add_argument(
        "--by-seconds", action="store_true", help="looks by what they tell in a second"
    )
    arguments = parser.parse_args()
    unknown = [part for part in arguments.parts if part not in PARTS]
    if unknown:
        parser.error(f"PART must be one of {', '.join(PARTS)}, not {unknown[0]}")
    return arguments


def _first_line(part):
    return part.__doc__.partition("\n")[0]


def main():
    arguments = parsed()
    request = Request(
        arguments.seed,
        arguments.count,
        arguments.every,
        tuple(arguments.errors or USUAL_ERRORS),
        not arguments.by_seconds,
    )
    for name in arguments.parts or PARTS:
        start_s = time.monotonic()
        PARTS[name].play(request)
        print(f"\n{name}: {time.monotonic() - start_s:.0f} s, seed {request.seed}", flush=True)


if __name__ == "__main__":
    main()
