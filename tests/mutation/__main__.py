"""Tells how many small mistakes in the program, and in the files it ships, its tests find.

    python -m tests.mutation                                 30 mutants of each part, by seed 1
    python -m tests.mutation --sample 60 --seed 2 --part verdict --part yaml

A mutant is the program with one small mistake put in. It is killed when a test fails, and survives
when none does. The parts are the folders whose mistakes would be about boards (`parts.py`), mutated
by mutmut, and `yaml`, the shipped profiles and scripts, mutated by `yaml_mutants.py`. Of each part
the sample is drawn by the seed: the same seed draws the same mutants of the same files.

All is done in a copy of the checkout, uncommitted changes included, which is removed at the end and
after Ctrl-C. It prints, for each part, how many were killed, the share with its 95 % interval, and
each survivor as a unified diff. A survivor with a reason in `survivors.yaml` is told apart from a
new one. The exit code is 0 without new survivors, 1 with some, 130 after Ctrl-C.

It needs mutmut: pip install -e '.[test,mutation]'. See DEVELOPERS.md, "Mutation testing".
"""

import argparse
import signal
import sys
from types import FrameType

from .copied import copied_checkout
from .figures import HEAD, Figures, row
from .mutants import Survivor
from .parts import PARTS
from .shipped_part import try_shipped
from .source_part import try_source
from .survivors import Reasons, read_reasons

YAML = "yaml"


def parsed() -> argparse.Namespace:
    summary, _, rest = (__doc__ or "").partition("\n\n")
    parser = argparse.ArgumentParser(
        prog="python -m tests.mutation",
        description=summary,
        epilog=rest,
        formatter_class=argparse.RawDescriptionHelpFormatter,
    )
    parser.add_argument("--sample", type=int, default=30, help="mutants of each part, default 30")
    parser.add_argument("--seed", type=int, default=1, help="what the samples are drawn by")
    names = (*PARTS, YAML)
    parser.add_argument("--part", action="append", choices=names, help="this part alone, or more")
    return parser.parse_args()


def tell_survivors(survivors: list[Survivor], reasons: Reasons) -> int:
    """Print each survivor, those with a reason first; return how many have none."""
    new = [survivor for survivor in survivors if not reasons.of(survivor)]
    for survivor in survivors:
        if reason := reasons.of(survivor):
            print(f"\nexplained: {survivor.location}\n{reason}\n{survivor.diff}")
    for survivor in new:
        print(f"\nNEW: {survivor.location}, {survivor.how}\n{survivor.diff}", flush=True)
    return len(new)


def interrupt(number: int, frame: FrameType | None) -> None:
    raise KeyboardInterrupt


def try_part(name: str, sample: int, seed: int, reasons: Reasons) -> Figures:
    """Try a sample of one part in a copy of its own, and tell what survived."""
    print(f"\n== {name}", flush=True)
    with copied_checkout() as copy:
        if name == YAML:
            tried, survivors = try_shipped(copy, sample, seed)
        else:
            tried, survivors = try_source(copy, PARTS[name], sample, seed)
    new = tell_survivors(survivors, reasons)
    return Figures(tried, len(survivors), new)


def main() -> int:
    arguments = parsed()
    for number in (signal.SIGINT, signal.SIGTERM):
        signal.signal(number, interrupt)
    reasons = read_reasons()
    found: dict[str, Figures] = {}
    try:
        for name in arguments.part or (*PARTS, YAML):
            found[name] = try_part(name, arguments.sample, arguments.seed, reasons)
    except KeyboardInterrupt:
        print("\nstopped")
        return 130
    finally:
        print("", HEAD, *(row(name, figures) for name, figures in found.items()), sep="\n")
    if len(found) > 1:
        print(row("all", sum(found.values(), Figures(0, 0, 0))))
    return int(any(figures.new for figures in found.values()))


if __name__ == "__main__":
    sys.exit(main())
