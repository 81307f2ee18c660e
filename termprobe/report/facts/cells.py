"""Single cells that are not as they must be, in words. Pure."""

from collections.abc import Sequence

from termprobe import notation
from termprobe.terminal.screen import UNKNOWN_CHARACTER, Difference, ascii_of
from termprobe.verdict.evidence import code_of_character

CELLS_SHOWN = 4
QUOTE = 0x22


def cells_in_words(differs: Sequence[Difference], variant: str = "") -> tuple[str, ...]:
    """Return a phrase for each of the first cells, and one for how many more there are.

    `variant` is the national character set in which they were shown; empty for ASCII.
    """
    told = [_cell(cell, variant) for cell in differs[:CELLS_SHOWN]]
    left_out = len(differs) - CELLS_SHOWN
    if left_out > 0:
        told.append(f"and {left_out:,} more cells")
    return tuple(told)


def _cell(cell: Difference, variant: str) -> str:
    row, column, expected, seen = cell
    wanted = f"row {row}, column {column}: expected {_character(expected, variant)}"
    if seen == UNKNOWN_CHARACTER:
        return f"{wanted}, marked as differing"
    return f"{wanted}, seen {_character(seen, variant)}"


def _character(character: str, variant: str) -> str:
    """Return a character with its code; one of a national variant as that shows it."""
    code = code_of_character(character, variant)
    if code is None:
        return f"{notation.visible(character)} (U+{ord(character):04X})"
    if not character.isascii() and ascii_of(character, variant) != character:
        return f'"{character}" ({code:02X}h)'
    if code == QUOTE:
        return "'\"' (22h)"  # the notation has no quoted form for the quote itself
    return f"{notation.show_code(code)} ({code:02X}h)"
