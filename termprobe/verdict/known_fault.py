"""What a fault that the builder goes on with makes of the verdicts. Pure.

What was expected with it stands with each answer, so that no board is needed to judge it again. The
board itself never passes.
"""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import replace

from termprobe.journal.kept import ShownWithFaults
from termprobe.journal.known_fault import KnownFault
from termprobe.journal.records import Record
from termprobe.plan.model import Step, expected_of
from termprobe.terminal.screen import Screen
from termprobe.verdict.given import StepAnswers
from termprobe.verdict.model import (
    BLOCKED,
    FAIL,
    PASS,
    UNANSWERED,
    AsOfGoodBoard,
    AsWithFault,
    Hidden,
    StepVerdict,
)

Answers = Mapping[str, StepAnswers]
"""By the id of the step."""


def known_faults(records: Iterable[Record]) -> tuple[KnownFault, ...]:
    """Return the faults with which a run goes on, in the order in which they were named."""
    return tuple(record for record in records if isinstance(record, KnownFault))


def expected_with(step: Step, against: ShownWithFaults) -> Screen:
    """Return the screen that is expected of `step` where a board has the faults of `against`."""
    planned = expected_of(step) or Screen(against.rows, against.cursor)
    return replace(
        planned,
        rows=against.rows,
        cursor=against.cursor,
        bells=against.bells,
        misdrawn=against.misdrawn,
    )


def with_faults(
    against: ShownWithFaults, compared: StepVerdict, of_good_board: StepVerdict
) -> StepVerdict:
    """Return the verdict by an answer that was given `against` a screen with faults.

    `compared` is by that screen, `of_good_board` by that of the plan.
    """
    if compared.verdict == PASS:
        return replace(compared, because=AsWithFault(against.faults))
    if of_good_board.verdict == PASS:
        return replace(of_good_board, because=AsOfGoodBoard(against.faults))
    return compared


def explained(
    own: Mapping[str, StepVerdict], answers: Answers, faults: Iterable[KnownFault]
) -> dict[str, StepVerdict]:
    """Return the verdicts of the steps that failed just as a known fault predicts."""
    return {
        step: replace(own[step], known_fault=fault.fault)
        for fault in faults
        for step in fault.explains
        if step in own and own[step].verdict == FAIL and _is_of_before(answers[step])
    }


def _is_of_before(answers: StepAnswers) -> bool:
    """Return whether the answer that counts was given before the fault was known."""
    return not answers.given or answers.given[-1].against is None


def without_hidden(
    verdicts: Iterable[StepVerdict], faults: Sequence[KnownFault]
) -> list[StepVerdict]:
    """Return the verdicts, those of looks that a known fault hides blocked where not answered."""
    hiding = {step: fault.fault for fault in faults for step in fault.hidden}

    def blocked(verdict: StepVerdict) -> StepVerdict:
        if verdict.verdict != UNANSWERED or verdict.id not in hiding:
            return verdict
        return replace(verdict, verdict=BLOCKED, because=Hidden(hiding[verdict.id]))

    return [blocked(verdict) for verdict in verdicts]
