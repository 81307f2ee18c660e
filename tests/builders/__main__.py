"""Plays builders with given error rates on boards with faults, and prints how they fare.

    python -m tests.builders                                every part, by a sample
    python -m tests.builders pictures odds --count 100      two parts, of 100 faults each
    python -m tests.builders pictures --every               every fault that a look can show

All is drawn by --seed: the same seed plays the same builders. Each share stands with its exact 95 %
interval (Clopper and Pearson). A sample of one part takes a minute or two.
"""

from helpers.parts import in_turn, parsed, parser_of

from . import (
    cascade,
    coverage,
    good_boards,
    known_faults,
    odds,
    one_lie,
    pictures,
    stories,
    told_stories,
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
    "stories": stories,
    "told-stories": told_stories,
}
"""Name of each part: its module, whose first line says what it is for."""
USUAL_ERRORS = (0.0, 0.05, 0.1)


def words():
    parser = parser_of("tests.builders", __doc__, PARTS)
    parser.add_argument("--every", action="store_true", help="every fault, not a sample")
    parser.add_argument("--count", type=int, help="how many faults, boards or pairs in a sample")
    parser.add_argument("--errors", type=float, action="append", help="0, 0.05 and 0.1 by default")
    parser.add_argument(
        "--by-seconds", action="store_true", help="looks by what they tell in a second"
    )
    return parsed(parser, PARTS)


def main():
    arguments = words()
    request = Request(
        arguments.seed,
        arguments.count,
        arguments.every,
        tuple(arguments.errors or USUAL_ERRORS),
        not arguments.by_seconds,
    )
    in_turn(arguments, PARTS, lambda part: part.play(request))


if __name__ == "__main__":
    main()
