"""Characters as dots: as they must be drawn, what is drawn otherwise, what of that eyes notice.

What is drawn otherwise is told by pairs: a character and its dots, rows joined by a stroke; or
CURSOR or BEAM and what is wrong with it.
"""

from collections.abc import Mapping, Sequence
from typing import NamedTuple

Misdrawn = tuple[str, str]
CURSOR, BEAM = "cursor", "beam"
MISSING = "missing"
"""Said of the cursor. What else can be wrong with it, and with the beam, is seen everywhere."""
NOTICED_SHARE = 1 / 4
"""Dots that are wrong in so many of all cells are noticed by who looks for something else."""


class Enlarged(NamedTuple):
    """A character as it must be drawn."""

    character: str
    rows: tuple[str, ...]
    """Of dots, `#` lit and `.` dark, the gap around the drawing left out."""


def is_character(one: Misdrawn) -> bool:
    """Return whether it tells of a character."""
    return len(one[0]) == 1


def noticed(
    misdrawn: Sequence[Misdrawn], counts: Mapping[str, int], is_asked: bool, shows_cursor: bool
) -> tuple[Misdrawn, ...]:
    """Return what an eye notices of what is `misdrawn`.

    `counts` holds how often each character stands on the screen. Who is asked for dots compares
    each character; who is not sees only what is wrong in a good part of the screen. The cursor is
    missed where a look shows one.
    """
    if not misdrawn:
        return ()
    odd = sum(counts.get(one[0], 0) for one in misdrawn if is_character(one))
    sees_characters = is_asked or odd >= NOTICED_SHARE * sum(counts.values())

    def is_noticed(one: Misdrawn) -> bool:
        if is_character(one):
            return sees_characters
        return shows_cursor or one[1] != MISSING

    return tuple(filter(is_noticed, misdrawn))


def cells_of(misdrawn: Sequence[Misdrawn], counts: Mapping[str, int]) -> int:
    """Return how many cells of a screen they are."""
    if any(not is_character(one) and one[1] != MISSING for one in misdrawn):
        return sum(counts.values())
    return sum(counts.get(one[0], 1) for one in misdrawn)


def dots_in_words(misdrawn: Sequence[Misdrawn]) -> list[str]:
    """Return what has the wrong dots, in some sentences without full stops."""
    told = []
    characters = [one[0] for one in misdrawn if is_character(one)]
    if len(characters) == 1:
        told.append(f"{_named(characters[0])} is drawn with wrong dots")
    elif characters:
        letters_first = sorted(characters, key=lambda one: not one.isalnum())
        examples = ", ".join(map(_named, letters_first[:EXAMPLES]))
        told.append(f"{len(characters)} characters are drawn with wrong dots, such as {examples}")
    told += [_OF_OTHERS[one] for one in misdrawn if one in _OF_OTHERS]
    return told


def _named(character: str) -> str:
    if character == " ":
        return "the blank"
    return character


EXAMPLES = 3
_OF_OTHERS = {
    (CURSOR, MISSING): "the cursor is not to be seen",
    (CURSOR, "everywhere"): "the cursor is seen in every cell",
    (BEAM, "seen"): "bright lines run over the screen, where the beam flies back",
}
