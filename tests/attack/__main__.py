"""Attacks the program, and prints what was tried and what failed.

    python -m tests.attack                            every part, in its usual length
    python -m tests.attack parsers --count 1000000    one part, longer

All is drawn by --seed. Inputs that failed are kept in the folder of --out. The exit code is 1 where
anything failed.
"""

import signal
from typing import NamedTuple

from helpers.parts import in_turn, parsed, parser_of

from . import (
    big,
    consoles,
    content,
    extremes,
    files,
    kills,
    lines,
    long,
    names,
    parsers,
    run_files,
    two,
    walk,
)
from .guarded import EndedFromOutside

PARTS = {
    "parsers": parsers,
    "extremes": extremes,
    "content": content,
    "big": big,
    "run-files": run_files,
    "kills": kills,
    "two": two,
    "long": long,
    "walk": walk,
    "names": names,
    "lines": lines,
    "files": files,
    "consoles": consoles,
}
"""Name of each part: its module, whose first line says what it is for."""


class Request(NamedTuple):
    """The options of the command."""

    seed: int
    count: int | None
    """How often each thing is tried; None for what is usual."""
    folder: str
    """Where what failed is kept."""
    only: str = ""
    """Of the rows of `parsers` and `kills`, those are tried whose name begins so."""

    def how_many(self, usual):
        """Return how often to try where `usual` takes some minutes."""
        return self.count or usual


def words():
    parser = parser_of("tests.attack", __doc__, PARTS)
    parser.add_argument("--count", type=int, help="how often each thing is tried")
    parser.add_argument("--out", default="attack-failed", help="folder for inputs that failed")
    parser.add_argument("--only", default="", help="of parsers and kills, rows that begin so")
    return parsed(parser, PARTS)


def end_tidily():
    """Let SIGTERM end this process as an exception does: what was mounted or begun is let go."""
    signal.signal(signal.SIGTERM, _end)


def _end(number, _):
    raise EndedFromOutside(128 + number)


def main():
    arguments = words()
    end_tidily()
    request = Request(arguments.seed, arguments.count, arguments.out, arguments.only)
    return any(in_turn(arguments, PARTS, lambda part: part.attack(request)))


if __name__ == "__main__":
    raise SystemExit(main())
