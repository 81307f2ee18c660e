"""Plan and records of a run to verdicts: pure, so that they can be computed again at any time.

The last answer to a step counts, and none that was taken back. What can be compared is compared
again here, whatever word
the observer chose: rows, cursor, bells, returned bytes, readings. A step is blocked only where one
that it needs failed or is
itself blocked; where one that it needs was skipped, left unanswered or disputed, nothing is known
against it and it may still
be tried. A step that nobody answered passes where a look that covers it passed.
"""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace

from termprobe.journal.records import (
    AS_EXPECTED,
    DIFFERS,
    EYES,
    Answer,
    Answered,
    Heard,
    Record,
    TakenBack,
)
from termprobe.journal.records import DISPUTED as SAID_DISPUTED
from termprobe.journal.records import SKIPPED as SAID_SKIPPED
from termprobe.journal.records import UNSURE as SAID_UNSURE
from termprobe.plan.model import KeyPress, Measure, Plan, Press, Reply, ScreenStep, Step, TypedBack
from termprobe.terminal.screen import UNKNOWN_CHARACTER, Screen, differences
from termprobe.verdict import evidence
from termprobe.verdict.listening import Listening, notice
from termprobe.verdict.model import (
    BLOCKED,
    DISPUTED,
    FAIL,
    INCOMPLETE,
    NOT_FITTED,
    PASS,
    SKIPPED,
    UNANSWERED,
    UNSURE,
    Blocked,
    Covered,
    Differing,
    Measured,
    Pressed,
    Returned,
    RunVerdict,
    StepVerdict,
    Unfitted,
)
from termprobe.verdict.noticed import Noticed, rate

_OF_WORD = {
    AS_EXPECTED: PASS,
    DIFFERS: FAIL,
    SAID_UNSURE: UNSURE,
    SAID_DISPUTED: DISPUTED,
    SAID_SKIPPED: SKIPPED,
}
_WORD_DECIDES = (UNSURE, DISPUTED, SKIPPED)
"""Verdicts in which nothing is compared."""

PressesOfCode = Mapping[bytes, tuple[str, ...]]
"""For each code of the keyboard the presses that send it."""


@dataclass
class _Answers:
    """The answers to one step, but those taken back; `taken_back` counts these."""

    given: list[Answered]
    taken_back: int = 0


Known = dict[tuple[str, int, int], StepVerdict]
"""Verdicts by the own answers of a step: step id, number of answers, number of those taken back."""


def judge(plan: Plan, records: Iterable[Record], known: Known | None = None) -> RunVerdict:
    """Return the RunVerdict of `plan` by a journal's `records`, in order.

    `known` is filled here; given again with the same plan and the same records and more, it saves
    work.
    """
    known = {} if known is None else known
    answers = _answers(plan, records)
    codes = dict(plan.key_codes)
    own: dict[str, StepVerdict] = {}
    for step in plan.steps:
        of_step = answers[step.id]
        key = step.id, len(of_step.given), of_step.taken_back
        if key not in known:
            known[key] = _own(step, of_step.given, codes)
        own[step.id] = known[key]
    blocked = _blocked(plan, own)
    passed = {id for id, own_ in own.items() if own_.verdict == PASS and id not in blocked}
    verdicts = [
        _with_others(step, own[step.id], blocked.get(step.id), passed) for step in plan.steps
    ]
    return RunVerdict(_of_run(verdicts), tuple(verdicts))


def _answers(plan: Plan, records: Iterable[Record]) -> dict[str, _Answers]:
    answers = {step.id: _Answers([]) for step in plan.steps}
    for record in records:
        if isinstance(record, Answered) and record.step in answers:
            answers[record.step].given.append(record)
        elif isinstance(record, TakenBack) and record.step in answers:
            before = answers[record.step]
            answers[record.step] = _Answers([], before.taken_back + len(before.given))
    return answers


def _of_run(verdicts: Sequence[StepVerdict]) -> str:
    kinds = {verdict.verdict for verdict in verdicts}
    if FAIL in kinds:
        return FAIL
    is_passed = PASS in kinds and kinds <= {PASS, DISPUTED, NOT_FITTED}
    return PASS if is_passed else INCOMPLETE


def _blocked(plan: Plan, own: Mapping[str, StepVerdict]) -> dict[str, Blocked]:
    """Return step id -> why, for each step that needs, also through others, one that failed."""
    found: dict[str, Blocked] = {}
    count = -1
    while count < len(found):
        count = len(found)
        for step in plan.steps:
            chain = _chain(step, own, found) if step.id not in found else ()
            if chain:
                found[step.id] = Blocked(chain)
    return found


def _chain(
    step: Step, own: Mapping[str, StepVerdict], blocked: Mapping[str, Blocked]
) -> tuple[str, ...]:
    """Return the first need of `step` that failed, or that is blocked and by what.

    Nothing is returned where all may be well.
    """
    for need in step.needs:
        if need in blocked:
            return (need, *blocked[need].needs)
        if need in own and own[need].verdict == FAIL:
            return (need,)
    return ()


def _with_others(
    step: Step, own: StepVerdict, blocked: Blocked | None, passed: set[str]
) -> StepVerdict:
    """Return the StepVerdict with what other steps say of this one.

    `passed` holds the ids of those that passed.
    """
    verdict = StepVerdict(step.id, step.stage, step.title, PASS)
    if own.verdict == UNANSWERED and blocked is None and step.is_covered(passed):
        return replace(verdict, because=Covered(step.covering(passed)))
    if blocked is None or own.verdict == NOT_FITTED:
        return own
    if own.answers:
        blocked = replace(blocked, ignored=own.verdict)
    return replace(verdict, verdict=BLOCKED, because=blocked, answers=own.answers)


def _own(step: Step, answers: Sequence[Answered], codes: PressesOfCode) -> StepVerdict:
    """Return the StepVerdict by the step's own answers alone."""
    verdict = StepVerdict(step.id, step.stage, step.title, UNANSWERED, answers=len(answers))
    if step.not_fitted:
        return replace(verdict, verdict=NOT_FITTED, because=Unfitted(step.not_fitted))
    if not answers:
        return verdict
    last = answers[-1]
    verdict = replace(
        verdict,
        note=last.answer.note,
        observer=last.answer.observer,
        is_outdated=bool(last.hash and step.hash and last.hash != step.hash),
    )
    said = _OF_WORD.get(last.answer.word or "")
    if said in _WORD_DECIDES:
        return replace(verdict, verdict=said)
    if isinstance(step, KeyPress) and last.answer.heard:
        return _pressed(verdict, step.press, [record.answer for record in answers], codes)
    return _compared(verdict, step, last.answer, said)


def _compared(verdict: StepVerdict, step: Step, answer: Answer, said: str | None) -> StepVerdict:
    if isinstance(step, Measure):
        return _measured(verdict, step, answer.value)
    if isinstance(step, Reply) and answer.data is not None:
        return _replied(verdict, step, answer.data)
    if isinstance(step, TypedBack) and answer.data is not None:
        return _returned(verdict, step.typed, answer.data)
    if isinstance(step, ScreenStep) and step.expected is not None and answer.seen is not None:
        return _seen(verdict, step.expected, answer, said)
    return replace(verdict, verdict=said or UNANSWERED)


def _measured(verdict: StepVerdict, step: Measure, value: float | None) -> StepVerdict:
    is_inside = value is not None and step.allows(value)
    unusual = ""
    if value is not None and is_inside and not step.usual.holds(value):
        unusual = step.usual.in_words(step.unit)
    because = Measured(value, step.unit, step.limits, is_inside, step.source or "", unusual)
    if value is None:
        return replace(verdict, because=because)
    return replace(verdict, verdict=PASS if is_inside else FAIL, because=because)


def _replied(verdict: StepVerdict, step: Reply, came: bytes) -> StepVerdict:
    if not step.form:
        return _returned(verdict, step.reply, came)
    if step.allows(came):
        return replace(verdict, verdict=PASS, because=Returned(came, came, step.wanted))
    return replace(verdict, verdict=FAIL, because=Returned(step.reply, came, step.wanted))


def _returned(verdict: StepVerdict, wanted: bytes, came: bytes) -> StepVerdict:
    return replace(
        verdict,
        verdict=PASS if wanted == came else FAIL,
        because=Returned(wanted, came),
        evidence=evidence.of_bytes(wanted, came),
    )


def _pressed(
    verdict: StepVerdict, press: Press, answers: Sequence[Answer], codes: PressesOfCode
) -> StepVerdict:
    """Judge a press by what came: the last press counts.

    All of them together give the rate of a contact that fails at times.
    """
    noticed = [heard_as(press, answer.heard, codes) for answer in answers if answer.heard]
    contact = rate(noticed)
    fails = contact.is_flaky or any(one.fails for one in noticed[-1])
    because = Pressed(noticed[-1], contact)
    return replace(verdict, verdict=FAIL if fails else PASS, because=because)


def heard_as(press: Press, heard: Heard, codes: PressesOfCode) -> tuple[Noticed, ...]:
    """Return what is noticed of a press by what was heard of it."""
    return notice(press, heard.events, Listening(heard.speed_baud, heard.data_bits, codes))


def _seen(verdict: StepVerdict, expected: Screen, answer: Answer, said: str | None) -> StepVerdict:
    assert answer.seen is not None
    differs = differences(expected.rows, answer.seen)
    cursor = bells = None
    if answer.cursor and expected.cursor and answer.cursor != expected.cursor:
        cursor = expected.cursor, answer.cursor
    if answer.bells is not None and answer.bells != expected.bells:
        bells = expected.bells, answer.bells
    if not (differs or cursor or bells) and said != FAIL:
        return replace(verdict, verdict=PASS)
    told = tuple(cell for cell in differs if cell[3] != UNKNOWN_CHARACTER)
    is_whole = answer.strength > EYES
    return replace(
        verdict,
        verdict=FAIL,
        because=Differing(len(differs), cursor, bells),
        differs=differs,
        evidence=evidence.of_screen(expected.rows, told, is_whole),
    )
