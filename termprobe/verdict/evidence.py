"""What differences on a screen, or in bytes that came back, say of the data bits: computed, never
asked for.

Each change that a fault of one or two bits makes of a code is tried on each part of the screen, and
predicts a whole screen.
The prediction with the fewest contradictions is told, the simpler and larger part first, and only
where at most one
observation in ten contradicts it: a human eye slips. report/evidence_words.py puts it into words.
"""

from collections import Counter
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import lru_cache
from itertools import combinations, compress

BITS = 7
TOLERANCE = 10
"""One contradiction in so many observations is borne."""
PARITY = ("even", "odd")

Cell = tuple[int, int, str, str]
"""Row, column, character expected, character seen. In bytes that came back the row is 0, the column
counts characters.
"""
_Code = tuple[int, int, int, int | None]
"""Row, column, code expected, code seen; None where what was seen has no code."""


@dataclass(frozen=True)
class Change:
    """What a fault makes of every code."""

    text: str
    is_single_bit: bool
    cost: float
    """In contradictions: by so many the simpler change may be worse and is still preferred."""
    table: tuple[int, ...]
    """Code seen for each code 0 to 127."""


@dataclass(frozen=True)
class Part:
    """A part of the screen."""

    where: str
    """After "every difference is": `in an odd row`; for the whole screen a phrase of its own."""
    cost: float
    holds: Callable[[int, int, bool], bool]
    """(row, column, whether the cell is expected blank) -> whether the cell belongs to it."""
    is_everywhere: bool = False
    """It is the whole screen."""

    @property
    def is_last_resort(self) -> bool:
        """Whether it is told only where no other part explains anything."""
        return self.cost == float("inf")


@dataclass(frozen=True)
class Explanation:
    """The change and the part that explain the differences best."""

    change: Change
    part: Part
    contradictions: tuple[Cell, ...]
    """The cells that do not fit."""
    observations: int
    alike: tuple[str, ...] = ()
    """Texts of other changes that fit as well."""


@dataclass(frozen=True)
class Evidence:
    """What differs, and what would explain it."""

    differs: tuple[Cell, ...]
    rows: int
    columns: int
    """Size of the screen; of bytes one row of as many columns."""
    explanation: Explanation | None
    is_of_bytes: bool = False
    is_whole: bool = True
    """Cells outside `differs` are known to be right; a builder marks only some."""


def of_screen(
    expected: Sequence[str], differs: tuple[Cell, ...], is_whole: bool = True
) -> Evidence | None:
    """Return where the differences are and what explains them; None where nothing differs."""
    if not differs:
        return None
    found = explain(expected, differs, is_whole)
    columns = max(map(len, expected))
    return Evidence(differs, len(expected), columns, found, is_whole=is_whole)


def of_bytes(wanted: bytes, came: bytes) -> Evidence | None:
    """Return what explains that `came` came back and not `wanted`; None where that cannot be
    compared.
    """
    if len(wanted) != len(came) or wanted == came or max(wanted + came) >= 1 << BITS:
        return None
    pairs = enumerate(zip(wanted, came, strict=True))
    differs = tuple((0, index, chr(a), chr(b)) for index, (a, b) in pairs if a != b)
    found = explain((wanted.decode("ascii"),), differs)
    return Evidence(differs, 1, len(wanted), found, is_of_bytes=True)


def explain(
    expected: Sequence[str], differs: Sequence[Cell], is_whole: bool = True
) -> Explanation | None:
    """Return the best Explanation of `differs` on the screen `expected` (rows), or None."""
    likely = _likely(differs)
    if not likely:
        return None
    seen = {(row, column): character for row, column, _, character in differs}
    cells = list(_cells(expected, seen, is_whole))
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
        tuple(other.change.text for other in alike if other.change is not change),
    )


@lru_cache(1)
def changes() -> tuple[Change, ...]:
    """Return every Change that is tried: blank, each bit stuck, each two bits bridged or
    exchanged.
    """
    found = [_change("what should be there is blank", 0, lambda code: 0x20)]
    for bit in range(BITS):
        found += _stuck(bit)
    for first, second in combinations(range(BITS), 2):
        found += _of_two(first, second)
    return tuple(found)


def _change(text: str, cost: float, of_code: Callable[[int], int], single: bool = False) -> Change:
    return Change(text, single, cost, tuple(of_code(code) for code in range(1 << BITS)))


def _stuck(bit: int) -> Iterator[Change]:
    mask = 1 << bit
    yield _change(f"bit {bit} arrives as 0", 0, lambda code: code & ~mask, single=True)
    yield _change(f"bit {bit} arrives as 1", 0, lambda code: code | mask, single=True)


def _of_two(first: int, second: int) -> Iterator[Change]:
    both, names = (1 << first) | (1 << second), f"bits {first} and {second}"
    yield _change(
        f"{names} both arrive as 0 unless both should be 1",
        1,
        lambda code: code if code & both == both else code & ~both,
    )
    yield _change(
        f"{names} both arrive as 1 unless both should be 0",
        1,
        lambda code: code | both if code & both else code,
    )
    yield _change(
        f"{names} arrive exchanged",
        1,
        lambda code: code if code & both in (0, both) else code ^ both,
    )


def parts(cells: Sequence[tuple[int, int]]) -> tuple[Part, ...]:
    """Return every Part that is tried for differences in `cells` ((row, column), ...), larger parts
    first.
    """
    rows, columns = [row for row, _ in cells], [column for _, column in cells]
    top, bottom, left, right = min(rows), max(rows), min(columns), max(columns)
    found = [Part("all over the screen", 0, lambda row, column, blank: True, is_everywhere=True)]
    for parity in (0, 1):
        found += _of_parity(parity)
    if left == right:
        found.append(Part(f"in column {left}", 2, lambda row, column, blank: column == left))
    if top == bottom:
        found.append(Part(f"in row {top}", 2, lambda row, column, blank: row == top))
    block = f"in {span('row', top, bottom)}, {span('column', left, right)}"
    found.append(Part(block, 3, _of_block(range(top, bottom + 1), range(left, right + 1))))
    some = frozenset(cells)
    single = "in a single cell" if len(some) == 1 else "in single cells"
    last = Part(single, float("inf"), lambda row, column, blank: (row, column) in some)
    return (*found, *map(_written_only, found), last)


def _of_parity(parity: int) -> Iterator[Part]:
    word = PARITY[parity]
    yield Part(f"in an {word} row", 1, lambda row, column, blank: row % 2 == parity)
    yield Part(f"in an {word} column", 1.5, lambda row, column, blank: column % 2 == parity)


def _of_block(rows: range, columns: range) -> Callable[[int, int, bool], bool]:
    return lambda row, column, blank: row in rows and column in columns


def _written_only(part: Part) -> Part:
    """Return the cells of `part` that are not expected blank."""
    return Part(
        f"{part.where}, blanks being right",
        part.cost + 0.5,
        lambda row, column, blank: not blank and part.holds(row, column, blank),
        part.is_everywhere,
    )


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


def _likely(differs: Sequence[Cell]) -> list[Change]:
    """Return the changes that explain nine in ten of the differences, wherever they are."""
    pairs = Counter((code_of(expected), code_of(seen)) for _, _, expected, seen in differs)
    coded = [(code, seen, count) for (code, seen), count in pairs.items() if code is not None]
    found: list[Change] = []
    for change in changes():
        fitting = sum(count for code, seen, count in coded if change.table[code] == seen)
        if fitting and (len(differs) - fitting) * TOLERANCE <= len(differs):
            found.append(change)
    return found


def _cells(
    expected: Sequence[str], seen: Mapping[tuple[int, int], str], is_whole: bool
) -> Iterator[_Code]:
    """Yield all cells that tell something."""
    for row, text in enumerate(expected):
        for column, character in enumerate(text):
            code = code_of(character)
            if code is not None and (is_whole or (row, column) in seen):
                yield row, column, code, code_of(seen.get((row, column), character))


def _contradictions(
    expected: Sequence[str],
    seen: Mapping[tuple[int, int], str],
    cells: Sequence[_Code],
    change: Change,
    part: Part,
) -> Iterator[Cell]:
    wrong = [_predicted(change, part, row, column, code) != got for row, column, code, got in cells]
    for row, column, _, _ in compress(cells, wrong):
        character = expected[row][column]
        yield row, column, character, seen.get((row, column), character)


def _predicted(change: Change, part: Part, row: int, column: int, code: int) -> int:
    return change.table[code] if part.holds(row, column, code == 0x20) else code


def code_of(character: str) -> int | None:
    """Return the 7-bit code of a character on a screen, None where it has none; a control picture
    stands for its code.
    """
    code = ord(character)
    if 0x2400 <= code <= 0x241F:
        return code - 0x2400
    if code == 0x2421:
        return 0x7F
    return code if code < 0x80 else None


def span(word: str, first: int, last: int) -> str:
    """Return `row 3`, or `rows 3 to 5`."""
    return f"{word} {first}" if first == last else f"{word}s {first} to {last}"
