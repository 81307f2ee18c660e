"""Character sets as a character generator holds them: which dots of each character are lit.

They are the files of profiles/characters, known by their ids. A set that was shipped is never drawn
anew, for run files name it and do not hold it.
"""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from functools import cache

from termprobe import yamlfile
from termprobe.findings import Findings, quoted
from termprobe.yamlvalues import Mapped, Text

FOLDER = "profiles/characters"
PRINTING = range(0x20, 0x7F)
LIT, DARK = "#", "."
"""How a dot is drawn."""
_MARKS = str.maketrans("10", LIT + DARK)

Glyph = tuple[int, ...]
"""The rows of one drawing, the uppermost first. Bit 0 of a row is its leftmost dot."""


@dataclass(frozen=True)
class CharacterFile(Mapped):
    """One file of the folder."""

    id: Text
    title: str
    columns: int
    rows: int
    """How many dots each drawing has."""
    source: str
    drawings: Text
    """Bands of drawings with a blank line between. The first line of a band holds, for each of its
    drawings, its code in hexadecimal and its character (SP for the blank)."""
    national: Text = Text("")
    """So are the characters drawn that only national variants show, by their codes in Unicode."""


@dataclass(frozen=True)
class CharacterSet:
    """The drawings of the printing characters, all of one size."""

    columns: int
    rows: int
    glyphs: Mapping[int, Glyph]
    """Those of ASCII, by code."""
    national: Mapping[int, Glyph] = field(default_factory=dict)
    """Those that only national variants show, by code in Unicode."""

    def glyph_of(self, character: str) -> Glyph | None:
        """Return the drawing of a character, None where the set has none."""
        code = ord(character)
        return self.glyphs.get(code, self.national.get(code))


def character_sets() -> list[str]:
    """Return the ids of all character sets, sorted."""
    return yamlfile.shipped_ids(FOLDER)


@cache
def character_set(set_id: str) -> CharacterSet:
    """Return the CharacterSet of that id, one of character_sets(); raise FileError."""
    path = yamlfile.shipped(FOLDER) / f"{set_id}.yaml"
    return parse(yamlfile.read_text(path), str(path))


def parse(text: str, name: str) -> CharacterSet:
    """Return the CharacterSet written in `text`; `name` stands in the findings.

    Raise FileError with every finding.
    """
    file = yamlfile.build(text, name, CharacterFile, (_check,))
    return CharacterSet(file.columns, file.rows, _glyphs(file.drawings), _glyphs(file.national))


def art_of(glyph: Glyph, columns: int) -> tuple[str, ...]:
    """Return a drawing as rows of LIT and DARK."""
    return tuple(f"{row:0{columns}b}"[::-1].translate(_MARKS) for row in glyph)


def _glyphs(text: str) -> dict[int, Glyph]:
    return {code: _glyph(rows) for code, rows in _drawings(text)}


def _glyph(rows: tuple[str, ...]) -> Glyph:
    return tuple(int(row[::-1].replace(LIT, "1").replace(DARK, "0"), 2) for row in rows)


def _drawings(text: str) -> Iterator[tuple[int, tuple[str, ...]]]:
    """Yield code and rows of each drawing; raise ValueError where a band is none."""
    for band in filter(None, text.strip("\n").split("\n\n")):
        head, *rows = band.split("\n")
        codes = head.split()[::2]
        columns = map(str.split, rows)
        for code, *drawing in zip(codes, *columns, strict=True):
            yield int(code, 16), tuple(drawing)


def _check(file: CharacterFile, findings: Findings) -> None:
    must = f"each code from {PRINTING[0]:02X}h to {PRINTING[-1]:02X}h once"
    codes = _checked(file.drawings, file, findings)
    if codes is not None and sorted(codes) != list(PRINTING):
        odd = sorted({*PRINTING} ^ {*codes}) or _doubled(codes)
        findings.add(file.drawings, f"drawings must be of {must}, not as of {_named(odd)}")
    national = _checked(file.national, file, findings) or []
    odd = sorted({*PRINTING} & {*national}) or _doubled(national)
    if odd:
        must = "characters that drawings has not, each once"
        findings.add(file.national, f"national must be of {must}, not as of {_named(odd)}")


def _checked(text: Text, file: CharacterFile, findings: Findings) -> list[int] | None:
    """Return the codes that are drawn; None where the bands are none, which is then found."""
    try:
        drawings = list(_drawings(text))
    except ValueError as error:
        findings.add(text, f"each band of drawings must be complete ({error})")
        return None
    for code, rows in drawings:
        if not _is_drawn(rows, file):
            must = f"{file.rows} rows of {file.columns} dots, {LIT} or {DARK}"
            findings.add(text, f"the drawing of {code:02X}h must be {must}")
    return [code for code, _ in drawings]


def _doubled(codes: Sequence[int]) -> list[int]:
    return sorted({code for code in codes if codes.count(code) > 1})


def _named(codes: Sequence[int]) -> str:
    return quoted(", ".join(f"{code:02X}h" for code in codes[:5]))


def _is_drawn(rows: tuple[str, ...], file: CharacterFile) -> bool:
    if len(rows) != file.rows:
        return False
    return all(len(row) == file.columns and {*row} <= {LIT, DARK} for row in rows)
