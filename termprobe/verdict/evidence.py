"""What differences on a screen, or in bytes that came back, say of the data bits: computed, never asked for.

Each change that a fault of one or two bits makes of a code is tried on each part of the screen, and predicts a whole screen.
The prediction with the fewest contradictions is told, the simpler and larger part first, and only where at most one
observation in ten contradicts it: a human eye slips.
"""

from collections import Counter
from dataclasses import dataclass
from functools import lru_cache
from itertools import combinations
from typing import Callable

from termprobe import notation

BITS = 7
TOLERANCE = 10
"""One contradiction in so many observations is borne."""
WHOLE = "all over the screen"
_PARITY = ("even", "odd")
NAMED = 3
"""How many contradictions and places are told one by one."""


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


@dataclass(frozen=True)
class Explanation:
    """The change and the part that explain the differences best."""

    change: Change
    part: Part
    contradictions: tuple[tuple[int, int, str, str], ...]
    """(row, column, expected, seen) of the cells that do not fit."""
    observations: int
    alike: tuple[str, ...] = ()
    """Texts of other changes that fit as well."""


@lru_cache(1)
def changes():
    """Return every Change that is tried: blank, each bit stuck, each two bits bridged or exchanged."""

    def change(text, is_single_bit, cost, of_code):
        return Change(text, is_single_bit, cost, tuple(of_code(code) for code in range(1 << BITS)))

    found = [change("what should be there is blank", False, 0, lambda code: 0x20)]
    for bit in range(BITS):
        found.append(change(f"bit {bit} arrives as 0", True, 0, lambda code, m=1 << bit: code & ~m))
        found.append(change(f"bit {bit} arrives as 1", True, 0, lambda code, m=1 << bit: code | m))
    for a, b in combinations(range(BITS), 2):
        both = (1 << a) | (1 << b)
        found.append(
            change(
                f"bits {a} and {b} both arrive as 0 unless both should be 1",
                False,
                1,
                lambda code, m=both: code if code & m == m else code & ~m,
            )
        )
        found.append(
            change(
                f"bits {a} and {b} both arrive as 1 unless both should be 0",
                False,
                1,
                lambda code, m=both: code | m if code & m else code,
            )
        )
        found.append(
            change(
                f"bits {a} and {b} arrive exchanged",
                False,
                1,
                lambda code, m=both: code ^ m if code & m not in (0, m) else code,
            )
        )
    return tuple(found)


def parts(cells):
    """Return every Part that is tried for differences in `cells` ((row, column), ...), larger parts first."""
    rows, columns = [row for row, _ in cells], [column for _, column in cells]
    top, bottom, left, right = min(rows), max(rows), min(columns), max(columns)
    found = [Part(WHOLE, 0, lambda row, column, blank: True)]
    for parity, word in enumerate(_PARITY):
        found.append(
            Part(f"in an {word} row", 1, lambda row, column, blank, p=parity: row % 2 == p)
        )
        found.append(
            Part(f"in an {word} column", 1.5, lambda row, column, blank, p=parity: column % 2 == p)
        )
    if left == right:
        found.append(Part(f"in column {left}", 2, lambda row, column, blank: column == left))
    if top == bottom:
        found.append(Part(f"in row {top}", 2, lambda row, column, blank: row == top))
    found.append(
        Part(
            f"in {_span('row', top, bottom)}, {_span('column', left, right)}",
            3,
            lambda row, column, blank: top <= row <= bottom and left <= column <= right,
        )
    )
    written = [
        Part(
            f"{part.where}, blanks being right",
            part.cost + 0.5,
            lambda row, column, blank, holds=part.holds: not blank and holds(row, column, blank),
        )
        for part in found
    ]
    single = Part(
        "in a single cell" if len(set(cells)) == 1 else "in single cells",
        float("inf"),
        lambda row, column, blank, some=frozenset(cells): (row, column) in some,
    )
    return (*found, *written, single)


def explain(expected, differs, is_whole=True):
    """Return the best Explanation of `differs` ((row, column, expected, seen), ...) on the screen `expected` (rows), or None.

    `is_whole` says whether cells outside `differs` are known to be right; a builder marks only some.
    """
    likely = _likely(differs)
    if not likely:
        return None
    seen = {(row, column): character for row, column, _, character in differs}
    cells = _cells(expected, seen, is_whole)
    scored = []
    for part in parts(tuple(seen)):
        groups = Counter(
            (code, got, part.holds(row, column, code == 0x20)) for row, column, code, got in cells
        )
        scored += [score for change in likely if (score := _score(change, part, groups))]
    if not scored:
        return None
    best, change, part, observations = min(
        scored, key=lambda score: (score[0], not score[1].is_single_bit)
    )
    alike = tuple(
        other.text
        for score, other, where, _ in scored
        if score == best and where is part and other is not change
    )
    wrong = [cell for cell in cells if _predicted(change, part, *cell[:3]) != cell[3]]
    return Explanation(
        change,
        part,
        tuple(_as_difference(expected, seen, cell) for cell in wrong),
        observations,
        alike,
    )


def _score(change, part, groups):
    """Return (score, change, part, observations), or None where too much contradicts.

    The lower score is better: (whether it is the last resort, contradictions and cost).
    """
    contradictions = observations = 0
    for (code, got, is_inside), count in groups.items():
        predicted = change.table[code] if is_inside else code
        contradictions += count * (predicted != got)
        observations += count * (predicted != code or got != code)
    if not observations or contradictions * TOLERANCE > observations:
        return None
    is_last_resort = part.cost == float("inf")
    score = is_last_resort, contradictions + change.cost + (0 if is_last_resort else part.cost)
    return score, change, part, observations


def _likely(differs):
    """Return the changes that explain nine in ten of the differences, wherever they are."""
    pairs = Counter((code_of(expected), code_of(seen)) for _, _, expected, seen in differs)
    found = []
    for change in changes():
        fitting = sum(
            count
            for (code, seen), count in pairs.items()
            if code is not None and change.table[code] == seen
        )
        if fitting and (len(differs) - fitting) * TOLERANCE <= len(differs):
            found.append(change)
    return found


def _cells(expected, seen, is_whole):
    """Return [(row, column, code expected, code seen), ...] of all cells that tell something."""
    cells = []
    for row, text in enumerate(expected):
        for column, character in enumerate(text):
            code = code_of(character)
            if code is not None and (is_whole or (row, column) in seen):
                cells.append((row, column, code, code_of(seen.get((row, column), character))))
    return cells


def _predicted(change, part, row, column, code):
    return change.table[code] if part.holds(row, column, code == 0x20) else code


def _as_difference(expected, seen, cell):
    row, column = cell[:2]
    return row, column, expected[row][column], seen.get((row, column), expected[row][column])


def code_of(character):
    """Return the 7-bit code of a character on a screen, None where it has none; a control picture stands for its code."""
    code = ord(character)
    if 0x2400 <= code <= 0x241F:
        return code - 0x2400
    return 0x7F if code == 0x2421 else code if code < 0x80 else None


def of_screen(expected, differs, is_whole=True):
    """Return sentences on where the differences are and which bit explains them; none where nothing differs."""
    if not differs:
        return ()
    found = explain(expected, differs, is_whole)
    if found is None:
        return (f"{_whereabouts(expected, differs)}; no single bit explains it",)
    where = None if is_whole else _whereabouts(expected, differs)
    return _sentences(found, differs, lambda cell: f"row {cell[0]}, column {cell[1]}", where)


def of_bytes(wanted, came):
    """Return sentences on which bit explains that `came` came back and not `wanted`; none where that cannot be compared."""
    if len(wanted) != len(came) or wanted == came or max(wanted + came) >= 1 << BITS:
        return ()
    rows = (wanted.decode("ascii"),)
    differs = tuple(
        (0, place, chr(a), chr(b)) for place, (a, b) in enumerate(zip(wanted, came)) if a != b
    )
    found = explain(rows, differs)
    if found is None:
        return (f"{len(differs)} of {len(wanted)} characters differ; no single bit explains it",)
    where = f"{len(differs)} of {len(wanted)} characters differ"
    return _sentences(found, differs, lambda cell: f"character {cell[1] + 1}", where)


def _sentences(found, differs, place, where=None):
    where = where or _where(found.part, differs)
    unlike = "" if found.change.is_single_bit else "no single bit explains it, but "
    sentences = [f"{where}; {unlike}{found.change.text}"]
    if found.alike:
        sentences.append("the same would be seen if " + ", or ".join(found.alike[:NAMED]))
    if found.contradictions:
        sentences.append(_contradicted(found, place))
    return tuple(sentences)


def _contradicted(found, place):
    count = len(found.contradictions)
    told = [
        f"{place(cell)} ({_shown(cell[2])} seen as {_shown(cell[3])})"
        for cell in found.contradictions[:NAMED]
    ]
    more = f" and {count - NAMED} more" if count > NAMED else ""
    verb = "contradicts" if count == 1 else "contradict"
    return f"{count} of {found.observations} observations {verb} this, look again: {', '.join(told)}{more}"


def _where(part, differs):
    count = sum(part.holds(row, column, expected == " ") for row, column, expected, _ in differs)
    if part.where.startswith(WHOLE):
        return part.where
    if count == len(differs):
        return f"every difference is {part.where}"
    return f"{count} of {len(differs)} differences are {part.where}"


def _shown(character):
    code = code_of(character)
    return notation.visible(character) if code is None else notation.show_code(code)


def _whereabouts(expected, differs):
    """Return where the differences are, in one phrase."""
    rows, columns = (
        sorted({row for row, *_ in differs}),
        sorted({column for _, column, *_ in differs}),
    )
    if len(differs) <= NAMED:
        places = ", ".join(f"row {row}, column {column}" for row, column, *_ in differs)
        return f"the only difference{' is' if len(differs) == 1 else 's are'} at {places}"
    for word, places in (("row", rows), ("column", columns)):
        if len(places) == 1:
            return f"every difference is in {word} {places[0]}"
        if len({place % 2 for place in places}) == 1:
            return f"every difference is in an {_PARITY[places[0] % 2]} {word}"
    if (rows[0], columns[0], rows[-1], columns[-1]) == (
        0,
        0,
        len(expected) - 1,
        max(map(len, expected)) - 1,
    ):
        return "the differences are spread over the screen"
    return f"every difference is in {_span('row', rows[0], rows[-1])}, {_span('column', columns[0], columns[-1])}"


def _span(word, first, last):
    return f"{word} {first}" if first == last else f"{word}s {first} to {last}"
