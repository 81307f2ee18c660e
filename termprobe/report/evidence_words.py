"""Where differences are, and which bit explains them, in words."""

from collections.abc import Callable

from termprobe import notation
from termprobe.terminal.screen import Difference
from termprobe.verdict.changes import (
    Area,
    Block,
    Change,
    EveryOther,
    Everywhere,
    OneLine,
    Part,
    SingleCells,
)
from termprobe.verdict.evidence import Evidence, Explanation, code_of_character

PARITY = ("even", "odd")
NAMED = 3
"""How many contradictions and cells are told one by one."""


def sentences(evidence: Evidence) -> tuple[str, ...]:
    """Return what the differences say, the most important sentence first."""
    found = evidence.explanation
    if found is None:
        return (f"{_whereabouts(evidence)}; no single bit explains it",)
    unlike = "" if found.change.is_single_bit else "no single bit explains it, but "
    told = [f"{_where(evidence, found)}; {unlike}{change_in_words(found.change)}"]
    if found.alike:
        others = ", or ".join(map(change_in_words, found.alike[:NAMED]))
        told.append(f"the same would be seen if {others}")
    if found.contradictions:
        told.append(_contradicted(found, _character if evidence.is_of_bytes else _cell))
    return tuple(told)


def change_in_words(change: Change) -> str:
    """Return what the fault makes of a code: `bit 3 arrives as 0`."""
    level = change.level
    bits = " and ".join(map(str, change.bits))
    match change.kind:
        case "blank":
            return "what should be there is blank"
        case "stuck":
            return f"bit {bits} arrives as {level}"
        case "bridged":
            return f"bits {bits} both arrive as {level} unless both should be {1 - level}"
        case "exchanged":
            return f"bits {bits} arrive exchanged"


def part_in_words(part: Part) -> str:
    """Return where the part is: `in an odd row, blanks being right`, `all over the screen`."""
    return area_in_words(part.area) + ", blanks being right" * part.is_written_only


def area_in_words(area: Area) -> str:
    """Return where the area is: `in an odd row`, `all over the screen`."""
    match area:
        case Everywhere():
            return "all over the screen"
        case EveryOther(axis, parity):
            return f"in an {PARITY[parity]} {axis}"
        case OneLine(axis, number):
            return f"in {axis} {number}"
        case Block(top, bottom, left, right):
            return f"in {span('row', top, bottom)}, {span('column', left, right)}"
        case SingleCells(cells):
            return "in a single cell" if len(cells) == 1 else "in single cells"


def span(word: str, first: int, last: int) -> str:
    """Return `row 3`, or `rows 3 to 5`."""
    return f"{word} {first}" if first == last else f"{word}s {first} to {last}"


def _cell(cell: Difference) -> str:
    return f"row {cell[0]}, column {cell[1]}"


def _character(cell: Difference) -> str:
    return f"character {cell[1] + 1}"


def _contradicted(found: Explanation, where: Callable[[Difference], str]) -> str:
    count = len(found.contradictions)
    told = [
        f"{where(cell)} ({_shown(cell[2])} seen as {_shown(cell[3])})"
        for cell in found.contradictions[:NAMED]
    ]
    more = f" and {count - NAMED} more" if count > NAMED else ""
    verb = "contradicts" if count == 1 else "contradict"
    of_all = f"{count} of {found.observations} observations {verb} this"
    return f"{of_all}, look again: {', '.join(told)}{more}"


def _where(evidence: Evidence, found: Explanation) -> str:
    if evidence.is_of_bytes or not evidence.is_whole:
        return _whereabouts(evidence)
    if found.part.is_everywhere and len(evidence.differs) <= NAMED:
        return _whereabouts(evidence)
    if found.part.is_everywhere:
        return part_in_words(found.part)
    holds = found.part.holds
    inside = [holds(row, column, expected == " ") for row, column, expected, _ in evidence.differs]
    if all(inside):
        return f"every difference is {part_in_words(found.part)}"
    return f"{sum(inside)} of {len(inside)} differences are {part_in_words(found.part)}"


def _whereabouts(evidence: Evidence) -> str:
    """Return where the differences are, in one phrase."""
    differs = evidence.differs
    if evidence.is_of_bytes:
        return f"{len(differs)} of {evidence.columns} characters differ"
    if len(differs) <= NAMED:
        verb = "the only difference is at" if len(differs) == 1 else "the only differences are at"
        return f"{verb} {', '.join(map(_cell, differs))}"
    rows = sorted({row for row, *_ in differs})
    columns = sorted({column for _, column, *_ in differs})
    for word, numbers in (("row", rows), ("column", columns)):
        if len(numbers) == 1:
            return f"every difference is in {word} {numbers[0]}"
        if len({number % 2 for number in numbers}) == 1:
            return f"every difference is in an {PARITY[numbers[0] % 2]} {word}"
    corners = rows[0], columns[0], rows[-1], columns[-1]
    if corners == (0, 0, evidence.rows - 1, evidence.columns - 1):
        return "the differences are spread over the screen"
    block = f"{span('row', rows[0], rows[-1])}, {span('column', columns[0], columns[-1])}"
    return f"every difference is in {block}"


def _shown(character: str) -> str:
    code = code_of_character(character)
    return notation.visible(character) if code is None else notation.show_code(code)
