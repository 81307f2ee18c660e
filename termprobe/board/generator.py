"""The character generator and what follows it: which dots each code lights in its cell."""

from collections.abc import Iterable, Iterator
from functools import cache

from termprobe.board.memory import CHARACTERS
from termprobe.board.wiring import DOT_BUSES, DOT_COLUMN, ROW_SCAN, Wiring
from termprobe.profile.characters import Glyph, art_of, character_set
from termprobe.profile.check_dots import row_lines
from termprobe.profile.model import Dots

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
    """What stands between the codes of a screen and its dots; all of it healthy, or with faults."""

    def __init__(self, box: Dots, wiring: Wiring) -> None:
        drawn = character_set(str(box.characters))
        self._box, self._wiring, self._glyphs = box, wiring, drawn.glyphs
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
        glyph = self._glyphs.get(code, ())
        if line >= len(self._rows) or self._rows[line] >= len(glyph):
            return 0
        row = self._rows[line]
        lit, dark = self._wiring.stuck_dots.get((code, row), (0, 0))
        return glyph[row] & ~dark | lit

    def _shifted(self, dots: int) -> int:
        """Return the dots as they leave the shift register: those of a stuck stage, and behind."""
        for stage, level in sorted(self._wiring.shift_register.items(), reverse=True):
            behind = self._all & ~((1 << stage) - 1)
            dots = dots & ~behind | behind * level
        return dots


_HEALTHY = Wiring()


def has_wrong_dots(wiring: Wiring) -> bool:
    """Return whether anything is wrong behind the codes of the cells."""
    return dot_parts(wiring) != dot_parts(_HEALTHY)


def dot_parts(wiring: Wiring) -> dict[str, object]:
    """Return the parts of a wiring that stand behind the codes of the cells, by name."""
    buses: dict[str, object] = {name: wiring.buses[name] for name in DOT_BUSES}
    return buses | {name: getattr(wiring, name) for name in DOT_PARTS}


def misdrawn_codes(box: Dots, wiring: Wiring) -> dict[int, Misdrawn]:
    """Return by each code that is drawn otherwise than it should be how it is drawn."""
    generator, found = CharacterGenerator(box, wiring), {}
    for code, good in enumerate(good_drawings(box)):
        drawing = generator.drawing(code)
        if drawing != good:
            art = "/".join(art_of(drawing, box.columns))
            found[code] = chr(CHARACTERS.get(code, code)), art
    return found


@cache
def good_drawings(box: Dots) -> tuple[Glyph, ...]:
    """Return what a good board draws for each code."""
    generator = CharacterGenerator(box, Wiring())
    return tuple(map(generator.drawing, CODES))


class Tube:
    """What of a screen's dots is not as it should be."""

    def __init__(self, box: Dots | None, wiring: Wiring) -> None:
        self._codes: dict[int, Misdrawn] = {}
        if box is not None and has_wrong_dots(wiring):
            self._codes = misdrawn_codes(box, wiring)
        self._beside = tuple(_beside_characters(wiring.light))

    def misdrawn(self, codes: Iterable[int]) -> tuple[Misdrawn, ...]:
        """Return what is drawn wrong of a screen on which these codes stand, by code."""
        if not self._codes:
            return self._beside
        shown = sorted(self._codes.keys() & set(codes))
        return (*(self._codes[code] for code in shown), *self._beside)


def _beside_characters(light: Iterable[str]) -> Iterator[Misdrawn]:
    """Yield what is wrong with the cursor and the beam."""
    if NO_CURSOR in light or ALL_DARK in light:
        yield CURSOR, MISSING
    if CURSOR_EVERYWHERE in light:
        yield CURSOR, EVERYWHERE
    if NO_BLANKING in light:
        yield BEAM, SEEN
