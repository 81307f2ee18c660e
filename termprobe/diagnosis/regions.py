"""The regions of a screen that are asked about once it differs, and which of them a fault touches.

Each is named by the words of area.py, which is how it stands in run files.
"""

from collections.abc import Iterator, Mapping, Sequence
from functools import cache

from termprobe.board.memory import codes_of
from termprobe.diagnosis.area import area_of
from termprobe.profile.variants import NO_VARIANT
from termprobe.terminal.dots import MISSING, Misdrawn, is_character
from termprobe.terminal.predicted import EVERYWHERE

BANDS = 4
"""Into so many bands rows and columns are cut."""
HALVES = ("top half", "bottom half", "left half", "right half")
PARITIES = ("odd rows", "even rows", "odd columns", "even columns")


@cache
def regions_of(rows: int, columns: int) -> tuple[str, ...]:
    """Return the words of all regions of a screen of that size."""
    edges = ("row 0", f"row {rows - 1}", "column 0", f"column {columns - 1}")
    bands = (*_bands("rows", rows), *_bands("columns", columns))
    return tuple(dict.fromkeys((EVERYWHERE, *HALVES, *PARITIES, *edges, *bands)))


@cache
def numbers_of(rows: int, columns: int) -> Mapping[str, int]:
    """Return the number of each region, by its words, as a bit of touched()."""
    return {words: number for number, words in enumerate(regions_of(rows, columns))}


def _bands(axis: str, count: int) -> Iterator[str]:
    """Yield the words of BANDS bands, where each has two lines or more."""
    step = count // BANDS
    if step < 2:
        return
    for number in range(BANDS):
        last = count - 1 if number == BANDS - 1 else (number + 1) * step - 1
        yield f"{axis} {number * step}-{last}"


@cache
def _masks(rows: int, columns: int) -> tuple[int, ...]:
    """Return each region as a number: of its bytes, a cell each, those that are in it are full."""
    masks = []
    for words in regions_of(rows, columns):
        area = area_of(words, rows, columns)
        line = bytes(0xFF * (column in area.columns) for column in range(columns))
        drawn = b"".join(line if row in area.rows else bytes(columns) for row in range(rows))
        masks.append(int.from_bytes(drawn, "big"))
    return tuple(masks)


def touched(
    codes: bytes,
    wanted: bytes,
    columns: int,
    dots: Sequence[Misdrawn] = (),
    variant: str = NO_VARIANT,
) -> int:
    """Return in which regions a screen of `codes` differs, as bits in the order of regions_of.

    `dots` is what an eye notices to be drawn with wrong dots, in that national variant.
    """
    odd = int.from_bytes(codes, "big") ^ int.from_bytes(wanted, "big")
    if dots:
        odd |= int.from_bytes(_drawn_wrong(codes, dots, variant), "big")
    if not odd:
        return 0
    masks = _masks(len(codes) // columns, columns)
    return sum(1 << number for number, mask in enumerate(masks) if odd & mask)


def _drawn_wrong(codes: bytes, dots: Sequence[Misdrawn], variant: str) -> bytes:
    """Return a byte for each cell, full where its character is drawn with wrong dots."""
    if any(not is_character(one) and one[1] != MISSING for one in dots):
        return b"\xff" * len(codes)
    odd = codes_of([one[0] for one in dots if is_character(one)], variant)
    return codes.translate(bytes(0xFF * (code in odd) for code in range(256)))
