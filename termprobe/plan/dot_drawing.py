"""Draws characters enlarged, dot by dot, as lines of text: as they must be, and as they are.

A dot is a sign of its own, or half a block. Pure.
"""

from collections.abc import Iterator, Sequence

from termprobe.notation import visible
from termprobe.plan.model import Look, Step
from termprobe.terminal.dots import Enlarged, Misdrawn, is_character
from termprobe.terminal.screen import Screen

GAP = "  "
MOST_DRAWN = 8
"""So many characters are drawn at most of those that are wrong."""
LIT = "#"
HALF_BLOCKS = {"..": " ", "#.": "\u2580", ".#": "\u2584", "##": "\u2588"}
"""For an upper and a lower dot the block that shows both."""


def dots_in_text(enlarged: Sequence[Enlarged]) -> str:
    """Return characters dot by dot, for a console of which nothing is known."""
    return "\n".join(draw_dots(enlarged))


def enlarged_of(step: Step) -> tuple[Enlarged, ...]:
    """Return the characters of a look whose dots are asked for; none of another step."""
    if isinstance(step, Look):
        return step.enlarged
    return ()


def wrong_dots(screen: Screen, asked: Sequence[Enlarged] = ()) -> tuple[Enlarged, ...]:
    """Return enlarged what is drawn wrong on a screen; of many those that are `asked` for first."""
    first = [one.character for one in asked]
    wrong = sorted(filter(is_character, screen.misdrawn), key=lambda one: _rank(one, first))
    return tuple(Enlarged(one[0], _trimmed(one[1].split("/"))) for one in wrong[:MOST_DRAWN])


def _trimmed(rows: Sequence[str]) -> tuple[str, ...]:
    """Return rows of dots without the dark ones at the end; the first stays."""
    lit = [number for number, row in enumerate(rows) if LIT in row]
    return tuple(rows[: max(lit, default=0) + 1])


def _rank(one: Misdrawn, first: Sequence[str]) -> tuple[int, bool]:
    """Return what sorts characters: those of `first` in their order, then letters and digits."""
    index = len(first)
    if one[0] in first:
        index = first.index(one[0])
    return index, not one[0].isalnum()


def draw_dots(
    enlarged: Sequence[Enlarged],
    columns: int | None = None,
    is_in_blocks: bool = False,
    is_close: bool = False,
) -> list[str]:
    """Return the characters beside one another, in so many console columns, each under itself.

    What has no room goes below. A console with block characters shows two rows of dots in one.
    Close bands have no blank lines between them, nor at their end.
    """
    lines: list[str] = []
    for band in _bands(enlarged, columns):
        drawn = list(_band(band, is_in_blocks))
        if lines and not is_close:
            lines.append("")
        if is_close:
            drawn = drawn[: _last_drawn(drawn)]
        lines += drawn
    return lines


def _last_drawn(lines: Sequence[str]) -> int:
    """Return the number of lines up to the last that is not blank."""
    return max((number for number, line in enumerate(lines, 1) if line), default=0)


def _bands(enlarged: Sequence[Enlarged], columns: int | None) -> Iterator[list[Enlarged]]:
    """Yield as many characters at a time as have room, one at least."""
    band: list[Enlarged] = []
    for one in enlarged:
        width = sum(len(each.rows[0]) + len(GAP) for each in (*band, one))
        if band and columns is not None and width > columns:
            yield band
            band = []
        band.append(one)
    if band:
        yield band


def _band(band: Sequence[Enlarged], is_in_blocks: bool) -> Iterator[str]:
    yield GAP.join(visible(one.character).ljust(len(one.rows[0])) for one in band).rstrip()
    height = max(len(one.rows) for one in band)
    drawn = [_filled(one.rows, height) for one in band]
    if is_in_blocks:
        drawn = [_in_blocks(rows) for rows in drawn]
    for row in zip(*drawn, strict=True):
        yield GAP.join(row).rstrip()


def _filled(rows: Sequence[str], height: int) -> list[str]:
    """Return the rows of one drawing, with blank ones below up to that height."""
    width = len(rows[0])
    return [*rows, *[" " * width] * (height - len(rows))]


def _in_blocks(rows: Sequence[str]) -> list[str]:
    """Return two rows of dots in each line."""
    dark = " " * len(rows[0])
    pairs = zip(rows[::2], [*rows[1::2], dark], strict=False)
    return ["".join(map(_block, upper, lower)) for upper, lower in pairs]


def _block(upper: str, lower: str) -> str:
    pair = "".join(".#"[dot == LIT] for dot in (upper, lower))
    return HALF_BLOCKS[pair]
