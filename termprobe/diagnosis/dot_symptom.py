"""How characters are drawn on a board that somebody tells of, and how well faults account for it.

What differs is one large number: a bit for each dot of each character, set where it is not as on a
good board.
"""

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import cache
from typing import NamedTuple

from termprobe.board.generator import Tube, good_drawings, misdrawn_codes
from termprobe.board.wiring import Wiring
from termprobe.diagnosis.error_rates import ErrorRates
from termprobe.diagnosis.eye_fits import Fit
from termprobe.errors import UsageError
from termprobe.profile.characters import CharacterSet, Glyph, art_of, character_set
from termprobe.profile.model import Dots, Profile
from termprobe.terminal.dots import Misdrawn, is_character

OTHER_DOTS = 14.0
"""What it costs where none of the dots that differ are those that were told."""
NEAR_ENOUGH = 0.1
"""Of the dots that differ, or were told, so many may be in one of the two alone."""
DRAWN_THOUGH_RIGHT = 4.6
"""One in a hundred tells of a character that is drawn as it should be. A judgement."""
MOST_ODD = 4
"""No more dots of one drawing count as written down wrongly."""
DRAWN_CODES = range(0x20, 0x7F)
LIT_MARKS, DARK_MARKS = "#*X@1O", ".-_ 0"
ROW_ENDS = "/\n,"


class Light(NamedTuple):
    """What is wrong with the dots of a board."""

    dots: int
    """Of all printing characters, those that are not as they should be."""
    beside: frozenset[Misdrawn] = frozenset()
    """What is wrong with the cursor and the beam."""


@dataclass(frozen=True)
class DotsNoticed:
    """What was told in words of the dots of all characters."""

    meant: tuple[Light, ...]
    """As it may be meant."""

    def fit(self, light: Light) -> Fit:
        """Return the Fit by what is wrong with a board."""
        odd = [_unlike(one, light) for one in self.meant]
        chance = sum(math.exp(-OTHER_DOTS * share) for share in odd) / len(odd)
        return Fit(math.log(chance), light, min(odd) <= NEAR_ENOUGH)


@dataclass(frozen=True)
class DrawnCharacter:
    """How one character was seen to be drawn."""

    code: int
    """Of the character that was sent."""
    rows: tuple[str, ...]
    """Of dots, as many as the box of a character has."""
    good: tuple[str, ...]
    """The same of a good board."""

    def odd_dots(self, drawings: Sequence[tuple[str, ...]]) -> int:
        """Return how many dots were written down wrongly, by the drawing that is most alike."""
        return min(_odd_dots(self.rows, drawn) for drawn in drawings)

    def fit(self, drawings: Sequence[tuple[str, ...]], rates: ErrorRates) -> Fit:
        """Return the Fit by how a board draws it, in one row of the screen and another."""
        counts = [_odd_dots(self.rows, drawn) for drawn in drawings]
        costs = [self._cost(drawn, rates) for drawn in drawings]
        chance = sum(math.exp(-cost) for cost in costs) / len(costs)
        fit = math.log(1 - rates.slip) + math.log(chance)
        return Fit(fit, tuple(sorted(drawings)), not min(counts))

    def _cost(self, drawn: tuple[str, ...], rates: ErrorRates) -> float:
        """Return what it costs where `drawn` stood there."""
        odd = min(_odd_dots(self.rows, drawn), MOST_ODD)
        cost = odd * -math.log(rates.slip / 2)
        if odd and drawn == self.good:
            cost += DRAWN_THOUGH_RIGHT
        return cost


DotSymptom = DotsNoticed | DrawnCharacter


def _unlike(told: Light, light: Light) -> float:
    """Return how much of what was told, or is so, is in one of the two alone, from 0 to 1."""
    either = (told.dots | light.dots).bit_count()
    share = 0.0
    if either:
        share = (told.dots ^ light.dots).bit_count() / either
    return max(share, float(told.beside != light.beside))


def _odd_dots(seen: Sequence[str], drawn: Sequence[str]) -> int:
    pairs = zip("".join(seen), "".join(drawn), strict=True)
    return sum(dot != other for dot, other in pairs)


def box_of(profile: Profile, option: str) -> Dots:
    """Return the box of a character; raise UsageError where the profile does not tell of dots."""
    box = profile.display.dots
    if box is None:
        raise UsageError(
            f"{option} must be of a display whose profile has a section dots, and {profile.id} "
            "has none"
        )
    return box


def light_of(box: Dots, wiring: Wiring) -> Light:
    """Return what is wrong with the dots of a board that is wired so."""
    odd = misdrawn_codes(box, wiring)
    good = good_drawings(box)
    drawings = [_glyph(odd[code][1]) if code in odd else good[code] for code in DRAWN_CODES]
    beside = Tube(box, wiring).misdrawn(b"")
    return Light(dots_of(box, drawings), frozenset(one for one in beside if not is_character(one)))


def _glyph(art: str) -> Glyph:
    return tuple(int(row[::-1].replace("#", "1").replace(".", "0"), 2) for row in art.split("/"))


def dots_of(box: Dots, drawings: Sequence[Glyph]) -> int:
    """Return the dots in which `drawings` of all printing characters are not as they should be."""
    return _in_one(box, drawings) ^ _all_good(box)


@cache
def _all_good(box: Dots) -> int:
    good = good_drawings(box)
    return _in_one(box, [good[code] for code in DRAWN_CODES])


def _in_one(box: Dots, drawings: Sequence[Glyph]) -> int:
    found = 0
    for drawing in drawings:
        for line in drawing:
            found = found << box.columns | line
    return found


def drawn_character(told: str, profile: Profile) -> DrawnCharacter:
    """Return what was told as `A=.###./#...#/...`; raise UsageError where it cannot be read."""
    box = box_of(profile, "--drawn")
    drawn = character_set(str(box.characters))
    character, equals, art = told[:1], told[1:2], told[2:]
    rows = list(_rows(art))
    is_known = len(character) == 1 and ord(character) in drawn.glyphs and equals == "="
    if not is_known or not rows or not _fits_into(rows, box):
        raise UsageError(_no_drawing(told, box, drawn))
    full = [row.ljust(box.columns, ".") for row in rows]
    full += ["." * box.columns] * (box.lines - len(full))
    code = ord(character)
    good = art_of(good_drawings(box)[code], box.columns)
    return DrawnCharacter(code, tuple(full), good)


def _rows(art: str) -> Iterator[str]:
    """Yield the rows of dots, marked as in character sets; other marks stay as they are."""
    marks = str.maketrans(LIT_MARKS + LIT_MARKS.lower() + DARK_MARKS, "#" * 12 + "." * 5)
    for end in ROW_ENDS[1:]:
        art = art.replace(end, ROW_ENDS[0])
    for row in art.strip(ROW_ENDS[0]).split(ROW_ENDS[0]):
        if row:
            yield row.translate(marks)


def _fits_into(rows: Sequence[str], box: Dots) -> bool:
    is_small = len(rows) <= box.lines and all(len(row) <= box.columns for row in rows)
    return is_small and all({*row} <= {"#", "."} for row in rows)


def _no_drawing(told: str, box: Dots, drawn: CharacterSet) -> str:
    example = "/".join(art_of(drawn.glyphs[0x41], drawn.columns))
    return (
        "--drawn must be a character, =, and its rows of dots as they are seen, from the top, # "
        f"lit and . dark, / between rows, at most {box.lines} rows of {box.columns}, such as "
        f'A={example}, not "{told}"'
    )
