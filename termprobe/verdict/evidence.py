"""What differences on a screen, or in bytes that came back, say of the data bits.

It is computed, never asked for. Each change that a fault of one or two bits makes of a code is
tried on each part of the screen, and predicts a whole screen. The prediction with the fewest
contradictions is told, the simpler and larger part first, and only where at most one observation in
ten contradicts it: a human eye slips. report/evidence_words.py puts it into words.
"""

from collections import Counter
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from functools import lru_cache
from itertools import compress

from termprobe.terminal.screen import UNKNOWN_CHARACTER, Difference, ascii_of
from termprobe.verdict.changes import BITS, Change, Part, changes, parts

TOLERANCE = 10
"""One contradiction in so many observations is borne."""

_Code = tuple[int, int, int, int | None]
"""Row, column, code expected, code seen; None where what was seen has no code."""


@dataclass(frozen=True)
class Explanation:
    """The change and the part that explain the differences best."""

    change: Change
    part: Part
    contradictions: tuple[Difference, ...]
    """The cells that do not fit."""
    observations: int
    alike: tuple[Change, ...] = ()
    """Other changes that fit as well."""


@dataclass(frozen=True)
class Evidence:
    """What differs, and what would explain it."""

    differs: tuple[Difference, ...]
    rows: int
    columns: int
    """Size of the screen; of bytes one row of as many columns."""
    explanation: Explanation | None
    is_of_bytes: bool = False
    is_whole: bool = True
    """Cells outside `differs` are known to be right; a builder marks only some."""
    variant: str = ""
    """The national variant in which the codes of the screen are shown, by its id."""

    @property
    def told(self) -> tuple[Difference, ...]:
        """The differences of which it is known what is seen there; others are only marked."""
        if self.is_whole:
            return self.differs
        return tuple(cell for cell in self.differs if cell.seen != UNKNOWN_CHARACTER)


def of_screen(
    expected: Sequence[str],
    differs: tuple[Difference, ...],
    is_whole: bool = True,
    variant: str = "",
) -> Evidence | None:
    """Return where the differences are and what explains them; None where nothing differs.

    Where the screen is not whole, cells that are only marked say where, and nothing of the bits.
    `variant` is the national variant in which the codes are shown.
    """
    if not differs:
        return None
    columns = max(map(len, expected))
    found = Evidence(differs, len(expected), columns, None, is_whole=is_whole, variant=variant)
    explanation = _explained(tuple(expected), found.told, is_whole, variant)
    return replace(found, explanation=explanation)


def of_bytes(wanted: bytes, came: bytes) -> Evidence | None:
    """Return what explains that `came` came back and not `wanted`; None where they do not compare.

    The row of each difference is 0, its column counts characters.
    """
    if len(wanted) != len(came) or wanted == came or max(wanted + came) >= 1 << BITS:
        return None
    pairs = enumerate(zip(wanted, came, strict=True))
    differs = tuple(Difference(0, index, chr(a), chr(b)) for index, (a, b) in pairs if a != b)
    found = explain((wanted.decode("ascii"),), differs)
    return Evidence(differs, 1, len(wanted), found, is_of_bytes=True)


def explain(
    expected: Sequence[str],
    differs: Sequence[Difference],
    is_whole: bool = True,
    variant: str = "",
) -> Explanation | None:
    """Return the best Explanation of `differs` on the screen `expected` (rows), or None."""
    likely = _likely(differs, variant)
    if not likely:
        return None
    seen = {(row, column): character for row, column, _, character in differs}
    cells = list(_cells(expected, seen, is_whole, variant))
    scored = list(_scores(likely, parts(tuple(seen)), cells))
    if not scored:
        return None
    best = min(scored, key=lambda score: (score.rank, not score.change.is_single_bit))
    change, part = best.change, best.part
    alike = [other for other in scored if other.rank == best.rank and other.part is part]
    return Explanation(
        change,
        part,
        tuple(_contradictions(expected, seen, cells, change, part)),
        best.observations,
        tuple(other.change for other in alike if other.change is not change),
    )


_explained = lru_cache(64)(explain)
"""Of many boards with one fault each shows the same screens."""


@dataclass(frozen=True)
class _Score:
    """How well one change of the codes in one part fits."""

    rank: tuple[bool, float]
    """The lower the better: (whether it is the last resort, contradictions and cost)."""
    change: Change
    part: Part
    observations: int


def _scores(
    likely: Sequence[Change], tried: Iterable[Part], cells: Sequence[_Code]
) -> Iterator[_Score]:
    """Yield the score of each change on each part, but where too much contradicts."""
    for part in tried:
        inside = [part.holds(row, column, code == 0x20) for row, column, code, _ in cells]
        counts: Counter[tuple[int, int | None, bool]] = Counter(
            (code, got, is_inside)
            for (_, _, code, got), is_inside in zip(cells, inside, strict=True)
        )
        for change in likely:
            score = _score(change, part, counts)
            if score is not None:
                yield score


def _score(
    change: Change, part: Part, counts: Mapping[tuple[int, int | None, bool], int]
) -> _Score | None:
    contradictions = observations = 0
    for (code, got, is_inside), count in counts.items():
        predicted = change.table[code] if is_inside else code
        contradictions += count * (predicted != got)
        observations += count * (predicted != code or got != code)
    if not observations or contradictions * TOLERANCE > observations:
        return None
    cost = change.cost + (0 if part.is_last_resort else part.cost)
    return _Score((part.is_last_resort, contradictions + cost), change, part, observations)


def _likely(differs: Sequence[Difference], variant: str) -> list[Change]:
    """Return the changes that explain nine in ten of the differences, wherever they are."""
    pairs = Counter(
        (code_of_character(expected, variant), code_of_character(seen, variant))
        for _, _, expected, seen in differs
    )
    coded = [(code, seen, count) for (code, seen), count in pairs.items() if code is not None]
    found: list[Change] = []
    for change in changes():
        fitting = sum(count for code, seen, count in coded if change.table[code] == seen)
        if fitting and (len(differs) - fitting) * TOLERANCE <= len(differs):
            found.append(change)
    return found


def _cells(
    expected: Sequence[str], seen: Mapping[tuple[int, int], str], is_whole: bool, variant: str
) -> Iterator[_Code]:
    """Yield all cells that tell something."""
    for row, text in enumerate(expected):
        for column, character in enumerate(text):
            code = code_of_character(character, variant)
            if code is not None and (is_whole or (row, column) in seen):
                got = seen.get((row, column), character)
                yield row, column, code, code_of_character(got, variant)


def _contradictions(
    expected: Sequence[str],
    seen: Mapping[tuple[int, int], str],
    cells: Sequence[_Code],
    change: Change,
    part: Part,
) -> Iterator[Difference]:
    wrong = [_predicted(change, part, row, column, code) != got for row, column, code, got in cells]
    for row, column, _, _ in compress(cells, wrong):
        character = expected[row][column]
        yield Difference(row, column, character, seen.get((row, column), character))


def _predicted(change: Change, part: Part, row: int, column: int, code: int) -> int:
    return change.table[code] if part.holds(row, column, code == 0x20) else code


def code_of_character(character: str, variant: str = "") -> int | None:
    """Return the 7-bit code of a character on a screen, None where it has none.

    A control picture stands for its code. `variant` is the national variant of the screen.
    """
    if variant:
        character = ascii_of(character, variant)
    code = ord(character)
    if 0x2400 <= code <= 0x241F:
        return code - 0x2400
    if code == 0x2421:
        return 0x7F
    return code if code < 0x80 else None
