"""Where differences are, and which bit explains them, in words."""

from collections.abc import Callable, Iterator
from itertools import starmap

from termprobe import notation
from termprobe.folding import first_of
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
from termprobe.verdict.whereabouts import (
    Gist,
    Mostly,
    OfBytes,
    Only,
    Spread,
    Whereabouts,
    Within,
    WithinCells,
    gist,
    where_it_can_show,
)

PARITY = ("even", "odd")
_IN_CELLS = {True: "in a single cell", False: "in single cells"}
NAMED = 3
"""How many contradictions are told one by one."""


def sentences(evidence: Evidence) -> tuple[str, ...]:
    """Return what the differences say, the most important sentence first."""
    told = [_gist_in_words(gist(evidence))]
    told += _of_what_is_known(evidence)
    found = evidence.explanation
    if found is None:
        return tuple(told)
    if found.alike:
        others = ", or ".join(map(change_in_words, found.alike[:NAMED]))
        told.append(f"the same would be seen if {others}")
    if found.contradictions:
        told.append(_contradicted(found, _character if evidence.is_of_bytes else _cell))
    return tuple(told)


def _of_what_is_known(evidence: Evidence) -> Iterator[str]:
    """Yield what limits the first sentence: of which cells it speaks."""
    part = where_it_can_show(evidence)
    if part is not None:
        what, _ = _showing(part)
        yield f"only {what}s {area_in_words(part.area)} can show it"
    of_all, told = len(evidence.differs), len(evidence.told)
    if 0 < told < of_all:
        yield f"what is seen is known of {told} of the {of_all} cells marked"


def _gist_in_words(gist: Gist) -> str:
    where = _whereabouts(gist.where) if gist.is_whole else _marked(gist.where)
    if not gist.is_told:
        return f"{where}; what is seen there is not told"
    if gist.change is None:
        return f"{where}; no single bit explains it"
    unlike = "" if gist.change.is_single_bit else "no single bit explains it, but "
    return f"{where}; {unlike}{change_in_words(gist.change)}"


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
            return f"bits {bits} arrive swapped"


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
            return _IN_CELLS[len(cells) == 1]


def span(word: str, first: int, last: int) -> str:
    """Return `row 3`, or `rows 3 to 5`."""
    return f"{word} {first}" if first == last else f"{word}s {first} to {last}"


def _cell(cell: Difference) -> str:
    return _at(cell.row, cell.column)


def _at(row: int, column: int) -> str:
    return f"row {row}, column {column}"


def _character(cell: Difference) -> str:
    return f"character {cell.column + 1}"


def _contradicted(found: Explanation, where: Callable[[Difference], str]) -> str:
    count = len(found.contradictions)
    told = [
        f"{where(cell)} ({_shown(cell.expected)} seen as {_shown(cell.seen)})"
        for cell in found.contradictions
    ]
    verb = "contradicts" if count == 1 else "contradict"
    of_all = f"{count} of {found.observations} observations {verb} this"
    return f"{of_all}, look again: {first_of(told, NAMED)}"


def _whereabouts(where: Whereabouts) -> str:
    """Return where the differences are, in one phrase."""
    match where:
        case OfBytes(differing, of_all):
            return f"{differing} of {of_all} characters differ"
        case Only(((row, column),)):
            return f"the only difference is at {_at(row, column)}"
        case Only(cells):
            return f"the only differences are at {', '.join(starmap(_at, cells))}"
        case Spread():
            return "the differences are spread over the screen"
        case WithinCells(is_one):
            return f"every difference is {_IN_CELLS[is_one]}"
        case Within(part) if part.is_everywhere:
            what, but = _showing(part)
            return f"in every {what} that can show it{but}"
        case Within(part):
            return f"every difference is {part_in_words(part)}"
        case Mostly(part, inside, of_all):
            return f"{inside} of {of_all} differences are {part_in_words(part)}"


def _showing(part: Part) -> tuple[str, str]:
    """Return what of a part can show a change, and what of it is right."""
    return ("character", ", blanks being right") if part.is_written_only else ("cell", "")


def _marked(where: Whereabouts) -> str:
    """Return where the cells are that a builder marked, in one phrase; others may differ too."""
    match where:
        case Only(cells):
            return f"marked at {', '.join(starmap(_at, cells))}"
        case Spread():
            return "the cells marked are spread over the screen"
        case Within(part):
            return f"every cell marked is {part_in_words(part)}"
    return _whereabouts(where)


def _shown(character: str) -> str:
    code = code_of_character(character)
    return notation.visible(character) if code is None else notation.show_code(code)
