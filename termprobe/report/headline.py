"""The one line that says what a run has shown, and of how much: the same wherever a run ends.

A part of a script is never headed PASS, and a practice says that it is one.
"""

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass
from typing import NamedTuple

from termprobe.plan.model import Plan
from termprobe.report.facts.numbers import is_or_are
from termprobe.verdict import model
from termprobe.verdict.counts import Counts, counts
from termprobe.verdict.model import RunVerdict, StepVerdict

PASS_WORD, PARTIAL = "PASS", "PARTIAL"
PART, WHOLE = "part", "whole"
IN_PRACTICE = "PRACTICE"
PRACTICE_PASSED = "PRACTICE, simulated board"
"""Heads what would be PASS on a real link."""
FROM_CARD = "FROM A CARD"
FROM_CARD_IN_PART = f"{FROM_CARD} IN PART"
CARD_PASSED = f"{FROM_CARD}, not on a link"
"""Heads what would be PASS had it been on a link of this program."""
WITH_KNOWN_FAULT = "WITH KNOWN FAULT"
TRY_THE_LINE = (
    "Try the cable (crossed where both ends are DTE), the adapter, speed and frame, and the board "
    "in local mode before the board is held for faulty; then go on with the run."
)
STAGES_NAMED = 3
THE_LINE = "line"
"""The serial number where the line itself is tried, whatever board is on it."""


@dataclass(frozen=True)
class Scope:
    """What a run was to try, and whether on a real board."""

    left_out: int = 0
    """How many steps of the script this board has that were not to be tried."""
    is_practice: bool = False
    """A link of the run was a simulated board."""
    is_from_card: bool = False
    """Answers of it were written on a card, with nothing on a link."""
    is_on_link_too: bool = False
    """Others of its answers were given over a link."""

    @property
    def card_word(self) -> str:
        """What a headline says of a card; empty where there was none."""
        if not self.is_from_card:
            return ""
        return FROM_CARD_IN_PART if self.is_on_link_too else FROM_CARD

    @property
    def kind(self) -> str:
        """Part or whole."""
        return PART if self.left_out else WHOLE


def board_name(serial: str) -> str:
    """Return what a sentence calls a board: `board 0042`, or `the line` where that is tried."""
    if serial == THE_LINE:
        return "the line"
    return f"board {serial}"


class Headline(NamedTuple):
    """The line, in its parts."""

    word: str
    """`PASS`, `FAIL (WITH KNOWN FAULT)`: what stands before the colon."""
    told: str


def headline(board: str, plan: Plan, verdict: RunVerdict, scope: Scope) -> str:
    """Return `PASS: board 7 passed 192 of 192 steps`, or what else the run has shown.

    `board` is the board as it is called. The line begins with PASS only for a whole plan over a
    real link, else with PARTIAL, FAIL, INCOMPLETE, PRACTICE or FROM A CARD.
    """
    found = headline_of(board, plan, verdict, scope)
    return f"{found.word}: {found.told}"


def headline_of(board: str, plan: Plan, verdict: RunVerdict, scope: Scope) -> Headline:
    """Return the same line in its parts."""
    word, told = _said(board, plan, verdict, scope)
    if word == PASS_WORD and scope.is_practice:
        return Headline(PRACTICE_PASSED, told)
    if word == PASS_WORD and scope.is_from_card:
        return Headline({FROM_CARD: CARD_PASSED}.get(scope.card_word, scope.card_word), told)
    beside = [WITH_KNOWN_FAULT] if verdict.known_faults else []
    if scope.is_practice:
        beside.append(IN_PRACTICE)
    if scope.is_from_card:
        beside.append(scope.card_word)
    if beside:
        word = f"{word} ({', '.join(beside)})"
    return Headline(word, told)


def _said(board: str, plan: Plan, verdict: RunVerdict, scope: Scope) -> tuple[str, str]:
    """Return the word that the line begins with, and what follows."""
    found = counts(verdict.steps)
    part = _part(plan, found, scope)
    match verdict.verdict:
        case model.PASS if scope.left_out:
            return PARTIAL, f"{board}: {part}, all right; no fault indicated by these"
        case model.PASS:
            return PASS_WORD, f"{_passed(board, found)}{_covered(found)}"
        case model.FAIL:
            elsewhere = verdict.failed_elsewhere
            failed = found.of(model.FAIL) - len(elsewhere)
            told = f"{board} failed {failed} of {found.all} steps"
            if elsewhere:
                told += f", and {_blamed(elsewhere)}"
            told += _with_known_faults(found, verdict) + _after_failing(found)
            return "FAIL", told + _silence(verdict) + _only(part)
    return "INCOMPLETE", _incomplete(board, found, verdict) + _only(part)


def _blamed(failed: Sequence[StepVerdict]) -> str:
    """Return `the adapter failed 1 step and the cable 2`: whom failures speak against."""
    count = Counter(step.blames for step in failed)
    (first, steps), *others = count.items()
    told = [f"the {first} failed {_steps(steps)}", *(f"the {one} {n}" for one, n in others)]
    return " and ".join(told)


def _steps(count: int) -> str:
    return "1 step" if count == 1 else f"{count} steps"


def _passed(board: str, found: Counts) -> str:
    return f"{board} passed {found.of(model.PASS)} of {found.all} steps"


def _part(plan: Plan, found: Counts, scope: Scope) -> str:
    """Return `Keys, 8 of 137 steps`, or nothing of a whole run."""
    if not scope.left_out:
        return ""
    titles = [stage.title for stage in plan.stages]
    named = ", ".join(titles[:STAGES_NAMED])
    if len(titles) > STAGES_NAMED:
        named += f" and {len(titles) - STAGES_NAMED} more stages"
    return f"{named}, {found.all} of {found.all + scope.left_out} steps"


def _only(part: str) -> str:
    return f"; only a part was tried: {part}" if part else ""


def _covered(found: Counts) -> str:
    return f", {found.covered} of them covered by others" if found.covered else ""


def _after_failing(found: Counts) -> str:
    unproven = found.all - found.of(model.PASS, model.FAIL, model.DISPUTED)
    told = ""
    if unproven:
        told = f"; {unproven} {is_or_are(unproven)} not proven"
    disputed = found.of(model.DISPUTED)
    return told + (f"; {disputed} disputed" if disputed else "")


def _with_known_faults(found: Counts, verdict: RunVerdict) -> str:
    """Return how many steps are as a known fault has it, and which fault that is."""
    if not verdict.known_faults:
        return ""
    named = " and ".join(fault.fault for fault in verdict.known_faults)
    explained = sum(bool(step.known_fault) for step in verdict.steps)
    told = f", {explained} just as the known fault {named} predicts"
    if found.with_fault:
        told += f"; {found.with_fault} more are as expected with it"
    return told


def _silence(verdict: RunVerdict) -> str:
    if not verdict.silent:
        return ""
    return "; nothing has ever come back from it, which is no verdict on the board"


def _incomplete(board: str, found: Counts, verdict: RunVerdict) -> str:
    if verdict.failed_elsewhere:
        blamed = _blamed(verdict.failed_elsewhere)
        return f"{blamed} of {found.all}: trouble with the link, no verdict on the board"
    if verdict.silent:
        return _of_silent_line(board, verdict)
    disputed = found.of(model.DISPUTED)
    if disputed and disputed + found.of(model.PASS) == found.all:
        return f"{board}: {disputed} of {found.all} steps disputed; everything else passed"
    told = f"{_passed(board, found)}, the rest is not proven"
    return told + (f"; {disputed} disputed" if disputed else "")


def _of_silent_line(board: str, verdict: RunVerdict) -> str:
    """Return what is said where nothing has ever come back and nothing has failed."""
    first = verdict.silent[0].because
    assert isinstance(first, model.Silent)
    told = f"nothing has ever come back from {board}"
    if first.is_heard:
        told += ", though it shows what is sent"
    return f"{told}: trouble with the link, no verdict on the board"
