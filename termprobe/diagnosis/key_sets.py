"""The fewest presses that show every single fault of lines, or tell them apart, and the proof.

Lines are those of the code and those of the matrix.
"""

from collections.abc import Sequence
from dataclasses import dataclass

from termprobe.board.faults.key_matrix import WHERE
from termprobe.board.wiring import KEYBOARD_CODE
from termprobe.diagnosis.cover import Cover, bits_of, smallest_cover, smallest_separation
from termprobe.diagnosis.fault_names import parsed
from termprobe.diagnosis.key_hypothesis import Hypothesis
from termprobe.diagnosis.key_outcomes import Predicted
from termprobe.diagnosis.key_table import table_of
from termprobe.profile.model import Profile

LINE_KINDS = (
    "row-open",
    "column-open",
    "rows-bridged",
    "columns-bridged",
    "rows-swapped",
    "columns-swapped",
    "shift-dead",
    "shift-stuck",
    "control-dead",
    "control-stuck",
)
"""Faults of the matrix that are not of one key: a key by itself shows only when it is pressed."""


@dataclass(frozen=True)
class Quick:
    """A smallest set of presses."""

    presses: tuple[str, ...]
    """Ids, in the order in which the keyboard's keys are listed."""
    faults: tuple[str, ...]
    """Faults of lines that the presses show, all that any press shows."""
    is_smallest: bool
    """The search has proved that fewer presses would miss a fault."""
    lower_bound: int
    """So many presses are needed, as far as the search has proved."""
    is_telling: bool
    """They tell the faults apart, and do not only show them."""


def quick_presses(profile: Profile) -> Quick:
    """Return the Quick set whose presses show the faults of lines of the keyboard of `profile`."""
    healthy, lines = _lines(profile)
    tests = {press: _shown_by(press, lines, healthy) for press in healthy.sends}
    return _quick(smallest_cover(tests), healthy, lines, is_telling=False)


def telling_presses(profile: Profile) -> Quick:
    """Return the Quick set whose presses tell the faults of lines apart, and from no fault.

    Faults that no press tells apart stay together. The pairs are many: this takes seconds, and the
    bound may stay below.
    """
    healthy, lines = _lines(profile)
    outcomes = {press: _numbered(press, (healthy, *lines)) for press in healthy.sends}
    return _quick(smallest_separation(outcomes), healthy, lines, is_telling=True)


def _lines(profile: Profile) -> tuple[Hypothesis, list[Hypothesis]]:
    """Return the healthy keyboard, and those with a fault of a line."""
    table = table_of(profile)
    return table.healthy, [one for one in table.hypotheses if _is_of_a_line(one.name)]


def _is_of_a_line(name: str) -> bool:
    fault = parsed(name)
    return fault.where == KEYBOARD_CODE.where or (fault.where == WHERE and fault.kind in LINE_KINDS)


def _shown_by(press: str, lines: Sequence[Hypothesis], healthy: Hypothesis) -> int:
    """Return the numbers of the faults that `press` shows, as bits."""
    normal = healthy.sends[press]
    return bits_of(number for number, one in enumerate(lines) if one.sends[press] != normal)


def _numbered(press: str, hypotheses: Sequence[Hypothesis]) -> list[int]:
    """Return for each hypothesis a number that stands for what comes of `press`."""
    numbers: dict[Predicted, int] = {}
    return [numbers.setdefault(one.sends[press], len(numbers)) for one in hypotheses]


def _quick(
    cover: Cover[str], healthy: Hypothesis, lines: Sequence[Hypothesis], is_telling: bool
) -> Quick:
    shown = tuple(one.name for one in lines if one.sends != healthy.sends)
    return Quick(cover.tests, shown, cover.is_smallest, cover.lower_bound, is_telling)
