"""The character generator and what follows it: which dots each code lights in its cell."""

from collections.abc import Iterable, Iterator
from functools import cache

from termprobe.board.memory import CHARACTERS
from termprobe.board.wiring import DOT_BUSES, DOT_COLUMN, ROW_SCAN, Wiring
from termprobe.profile.characters import CharacterSet, Glyph, art_of, character_set
from termprobe.profile.check_dots import row_lines
from termprobe.profile.model import Dots
from termprobe.profile.variants import NO_VARIANT, open_codes, shown_as

Misdrawn = tuple[str, str]
"""A character with the dots that it has, its rows joined by a stroke; or CURSOR or BEAM with what
is wrong with that."""
CURSOR, BEAM = "cursor", "beam"
MISSING, EVERYWHERE, SEEN = "missing", "everywhere", "seen"
NO_CURSOR, CURSOR_EVERYWHERE, NO_BLANKING = "cursor/dead", "cursor/everywhere", "blanking/dead"
ALL_DARK, HALF_DARK = "blanking/stuck", "dots/half"
CODES = range(128)
DOT_PARTS = ("shift_register", "stuck_dots", "light")
"""Fields of a Wiring that have a part in the dots alone."""


class CharacterGenerator:
    """What stands between the codes of a screen and its dots; all of it healthy, or with faults.

    The drawings that a national variant has of its own stand in other cells than those of ASCII.
    """

    def __init__(self, box: Dots, wiring: Wiring, variant: str = NO_VARIANT) -> None:
        drawn = character_set(str(box.characters))
        self._box, self._wiring, self._glyphs = box, wiring, drawn.glyphs
        self._own = own_glyphs(drawn, variant)
        self._rows = wiring.buses[ROW_SCAN.where][: 1 << row_lines(drawn)]
        self._dots = wiring.buses[DOT_COLUMN.where]
        self._all = (1 << box.columns) - 1

    def drawing(self, code: int) -> Glyph:
        """Return the dots of a cell that holds `code`, scan line by scan line."""
        return tuple(self._scan_line(code, line) for line in range(self._box.lines))

    def _scan_line(self, code: int, line: int) -> int:
        light = self._wiring.light
        if ALL_DARK in light or (HALF_DARK in light and line % 2):
            return 0
        return self._shifted(self._dots[self._read(code, line)])

    def _read(self, code: int, line: int) -> int:
        """Return the dots that are read for a scan line; below the drawing there are none."""
        glyph = self._own.get(code, self._glyphs.get(code, ()))
        if line >= len(self._rows) or self._rows[line] >= len(glyph):
            return 0
        row = self._rows[line]
        if code in self._own:
            return glyph[row]
        lit, dark = self._wiring.stuck_dots.get((code, row), (0, 0))
        return glyph[row] & ~dark | lit

    def _shifted(self, dots: int) -> int:
        """Return the dots as they leave the shift register: those of a stuck stage, and behind."""
        for stage, level in sorted(self._wiring.shift_register.items(), reverse=True):
            behind = self._all & ~((1 << stage) - 1)
            dots = dots & ~behind | behind * level
        return dots


def own_glyphs(drawn: CharacterSet, variant: str) -> dict[int, Glyph]:
    """Return the drawings that a national variant has of its own, by the code that shows them."""
    found: dict[int, Glyph] = {}
    for code in open_codes():
        glyph = drawn.glyph_of(shown_as(chr(code), variant))
        if glyph is not None and glyph != drawn.glyphs[code]:
            found[code] = glyph
    return found


_HEALTHY = Wiring()


def has_wrong_dots(wiring: Wiring) -> bool:
    """Return whether anything is wrong behind the codes of the cells."""
    return dot_parts(wiring) != dot_parts(_HEALTHY)


def dot_parts(wiring: Wiring) -> dict[str, object]:
    """Return the parts of a wiring that stand behind the codes of the cells, by name."""
    buses: dict[str, object] = {name: wiring.buses[name] for name in DOT_BUSES}
    return buses | {name: getattr(wiring, name) for name in DOT_PARTS}


def misdrawn_codes(box: Dots, wiring: Wiring, variant: str = NO_VARIANT) -> dict[int, Misdrawn]:
    """Return by each code that is drawn otherwise than it should be how it is drawn."""
    generator, found = CharacterGenerator(box, wiring, variant), {}
    for code, good in enumerate(good_drawings(box, variant)):
        drawing = generator.drawing(code)
        if drawing != good:
            art = "/".join(art_of(drawing, box.columns))
            found[code] = shown_as(chr(CHARACTERS.get(code, code)), variant), art
    return found


@cache
def good_drawings(box: Dots, variant: str = NO_VARIANT) -> tuple[Glyph, ...]:
    """Return what a good board draws for each code."""
    generator = CharacterGenerator(box, Wiring(), variant)
    return tuple(map(generator.drawing, CODES))


def good_drawing(box: Dots, character: str) -> Glyph:
    """Return what a good board draws for a character; it is dark where the set has no drawing."""
    glyph = character_set(str(box.characters)).glyph_of(character) or ()
    return (*glyph, *(0,) * (box.lines - len(glyph)))


class Tube:
    """What of a screen's dots is not as it should be."""

    def __init__(self, box: Dots | None, wiring: Wiring) -> None:
        self._box, self._wiring = box, wiring
        self._is_wrong = box is not None and has_wrong_dots(wiring)
        self._of_variant: dict[str, dict[int, Misdrawn]] = {}
        self._beside = tuple(_beside_characters(wiring.light))

    def misdrawn(self, codes: Iterable[int], variant: str = NO_VARIANT) -> tuple[Misdrawn, ...]:
        """Return what is drawn wrong of a screen on which these codes stand, by code."""
        odd = self._misdrawn_in(variant)
        if not odd:
            return self._beside
        shown = sorted(odd.keys() & set(codes))
        return (*(odd[code] for code in shown), *self._beside)

    def _misdrawn_in(self, variant: str) -> dict[int, Misdrawn]:
        if self._box is None or not self._is_wrong:
            return {}
        if variant not in self._of_variant:
            self._of_variant[variant] = misdrawn_codes(self._box, self._wiring, variant)
        return self._of_variant[variant]


def _beside_characters(light: Iterable[str]) -> Iterator[Misdrawn]:
    """Yield what is wrong with the cursor and the beam."""
    if NO_CURSOR in light or ALL_DARK in light:
        yield CURSOR, MISSING
    if CURSOR_EVERYWHERE in light:
        yield CURSOR, EVERYWHERE
    if NO_BLANKING in light:
        yield BEAM, SEEN
