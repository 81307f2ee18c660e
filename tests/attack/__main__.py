"""Attacks the program, and prints what was tried and what failed.

    python -m tests.attack                            every part, in its usual length
    python -m tests.attack parsers --count 1000000    one part, longer

All is drawn by --seed. Inputs that failed are kept in the folder of --out. The exit code is 1 where
anything failed.
"""

import argparse
import time
from typing import NamedTuple

from . import kills, names, parsers, run_files

PARTS = {"parsers": parsers, "run-files": run_files, "kills": kills, "names": names}
"""Name of each part: its module, whose first line says what it is for."""


class Request(NamedTuple):
    """The options of the command."""

    seed: int
    count: int | None
    """How often each thing is tried; None for what is usual."""
    folder: str
    """Where what failed is kept."""

    def how_many(self, usual):
        """Return how often to try where `usual` takes some minutes."""
        return self.count or usual


def parsed():
    told = "".join(f"\n  {name:<12}{_first_line(part)}" for name, part in PARTS.items())
    parser = argparse.ArgumentParser(
        prog="python -m tests.attack",
        description=f"{__doc__}\nParts:{told}",
        formatter_class=argparse.RawDescriptionHelpFormatter,
    )
    parser.add_argument("parts", nargs="*", metavar="PART", help="all of them by default")
    parser.add_argument("--count", type=int, help="how often each thing is tried")
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--out", default="attack-failed", help="folder for inputs that failed")
    arguments = parser.parse_args()
    unknown = [part for part in arguments.parts if part not in PARTS]
    if unknown:
        parser.error(f"PART must be one of {', '.join(PARTS)}, not {unknown[0]}")
    return arguments


def _first_line(part):
    return part.__doc__.partition("\n")[0]


def main():
    arguments = parsed()
    request = Request(arguments.seed, arguments.count, arguments.out)
    failed = 0
    for name in arguments.parts or PARTS:
        start_s = time.monotonic()
        failed += PARTS[name].attack(request)
        print(f"\n{name}: {time.monotonic() - start_s:.0f} s, seed {request.seed}", flush=True)
    return bool(failed)


if __name__ == "__main__":
    raise SystemExit(main())
