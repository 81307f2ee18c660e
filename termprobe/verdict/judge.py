"""Plan and records of a run to verdicts: pure, so that they can be computed again at any time.

The last answer to a step counts, where it was given under a text that asks the same; none that was
taken back or may be lost counts. What can be compared is compared again here, whatever word the
observer chose: rows, cursor, bells, returned bytes, readings. A step is blocked only where one that
it needs failed or is itself blocked; where one that it needs was skipped, left unanswered or
disputed, nothing is known against it and it may still be tried. A step that nobody answered passes
where the looks that cover it have all passed by answers of their own. Where nothing has ever come
over the line, a step that something had to come of is blocked, and has not failed. What may still
be answered is blocked, too, while the board must be switched off.
"""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace

from termprobe.journal.records import (
    AS_EXPECTED,
    DIFFERS,
    Answer,
    Answered,
    Heard,
    Record,
)
from termprobe.journal.records import DISPUTED as SAID_DISPUTED
from termprobe.journal.records import NOT_FITTED as SAID_NOT_FITTED
from termprobe.journal.records import SKIPPED as SAID_SKIPPED
from termprobe.journal.records import UNSURE as SAID_UNSURE
from termprobe.plan.model import (
    KeyPress,
    LineCheck,
    Look,
    Measure,
    Plan,
    Press,
    Reply,
    ScreenStep,
    Step,
    TypedBack,
)
from termprobe.verdict import evidence
from termprobe.verdict.blocking import blocked_steps, switched_off
from termprobe.verdict.doubts import is_text_lost
from termprobe.verdict.earlier import before_last
from termprobe.verdict.given import Given, StepAnswers
from termprobe.verdict.known_fault import (
    expected_with,
    explained,
    with_faults,
    without_hidden,
)
from termprobe.verdict.listening import Listening, notice
from termprobe.verdict.measured import measured
from termprobe.verdict.model import (
    BLOCKED,
    DISPUTED,
    FAIL,
    INCOMPLETE,
    NO_PRESS,
    NOT_FITTED,
    PASS,
    SKIPPED,
    UNANSWERED,
    UNSURE,
    Blocked,
    Changed,
    Covered,
    Earlier,
    LineFound,
    MayBeLost,
    Pressed,
    Returned,
    RunVerdict,
    StepVerdict,
    Unfitted,
    is_leaning,
)
from termprobe.verdict.noticed import Noticed, with_one_more
from termprobe.verdict.seen import of_screen
from termprobe.verdict.silent_line import of_silent_line
from termprobe.verdict.so_far import Known, nothing_known
from termprobe.verdict.switch_off import steps_after, switch_off_steps
from termprobe.verdict.unseen import not_seen

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


def judge(plan: Plan, records: Sequence[Record], known: Known | None = None) -> RunVerdict:
    """Return the RunVerdict of `plan` by a journal's `records`, in order.

    `known`, one of the same plan, is filled here; given again with the same records and more, it
    saves work.
    """
    so_far = (known or nothing_known(plan)).after(records)
    found, faults, doubts = so_far.given, so_far.faults, so_far.doubts.steps
    codes = dict(plan.key_codes)
    own: dict[str, StepVerdict] = {}
    for step in plan.steps:
        of_step = found.answers[step.id]
        if step.id not in so_far.verdicts:
            so_far.verdicts[step.id] = _with_earlier(step, of_step, codes)
        own[step.id] = _standing(so_far.verdicts[step.id], of_step, step.id in doubts)
    own |= dict(of_silent_line(plan, found, own, _by_unheard(plan, found, codes)))
    own |= explained(own, found.answers, faults)
    blocked = blocked_steps(plan, own)
    passed = {id for id, own_ in own.items() if _proves(own_) and id not in blocked}
    verdicts = [
        _with_others(step, own[step.id], blocked.get(step.id), passed) for step in plan.steps
    ]
    verdicts = without_hidden(verdicts, faults)

    def words(step: Step) -> Iterator[str]:
        answered = reversed(found.answers[step.id].given)
        return (_own(step, StepAnswers([record]), codes).verdict for record in answered)

    standing = switch_off_steps(plan, words)
    if standing:
        verdicts = switched_off(verdicts, standing[0], steps_after(plan, standing))
    verdict = FAIL if faults else _of_run(verdicts)
    if verdict == PASS and so_far.doubts.has_lost and is_text_lost(plan, records):
        verdict = INCOMPLETE
    return RunVerdict(verdict, tuple(verdicts), standing, faults)


def _proves(own: StepVerdict) -> bool:
    return own.verdict == PASS and not is_leaning(own)


def _standing(own: StepVerdict, answers: StepAnswers, is_in_doubt: bool) -> StepVerdict:
    """Return the StepVerdict by own answers, unanswered where what they say does not stand."""
    if own.verdict == NOT_FITTED:
        return own
    if is_in_doubt:
        open_again = StepVerdict(own.id, own.stage, own.title, UNANSWERED)
        return replace(open_again, because=MayBeLost(), answers=own.answers)
    if answers.is_changed:
        return replace(own, because=Changed())
    return own


def _by_unheard(plan: Plan, found: Given, codes: PressesOfCode) -> dict[str, StepVerdict]:
    """Return step id -> what it would show by its answers that say that nothing came."""
    steps = [step for step in plan.steps if found.answers[step.id].unheard]
    return {step.id: _own(step, _unheard(found.answers[step.id]), codes) for step in steps}


def _unheard(answers: StepAnswers) -> StepAnswers:
    return StepAnswers(answers.unheard, presses=answers.unheard_presses)


def _of_run(verdicts: Sequence[StepVerdict]) -> str:
    kinds = {verdict.verdict for verdict in verdicts}
    if any(verdict.verdict == FAIL and not verdict.blames for verdict in verdicts):
        return FAIL
    is_passed = PASS in kinds and kinds <= {PASS, NOT_FITTED}
    return PASS if is_passed else INCOMPLETE


def _with_others(
    step: Step, own: StepVerdict, blocked: Blocked | None, passed: set[str]
) -> StepVerdict:
    """Return the StepVerdict with what other steps say of this one.

    `passed` holds the ids of those that passed.
    """
    verdict = StepVerdict(step.id, step.stage, step.title, PASS)
    is_open = own.verdict == UNANSWERED and own.because is None
    if is_open and blocked is None and step.is_covered(passed):
        return replace(verdict, because=Covered(step.covering(passed)))
    if blocked is None or own.verdict == NOT_FITTED:
        return own
    if own.answers:
        blocked = replace(blocked, ignored=own.verdict)
    return replace(
        verdict, verdict=BLOCKED, because=blocked, answers=own.answers, earlier=own.earlier
    )


def _with_earlier(step: Step, answers: StepAnswers, codes: PressesOfCode) -> StepVerdict:
    """Return the StepVerdict by the step's own answers, with what those before the last said."""
    own = _own(step, answers, codes)
    if own.verdict == NOT_FITTED or not answers.given:
        return own

    def judged(answer: Answered, is_taken_back: bool) -> Earlier:
        return _earlier(step, answer, codes, is_taken_back)

    earlier = before_last(judged, answers.taken_back, answers.given)
    return replace(own, earlier=earlier)


def _earlier(step: Step, answer: Answered, codes: PressesOfCode, is_taken_back: bool) -> Earlier:
    alone = _own(step, StepAnswers([answer]), codes)
    return Earlier(alone.verdict, alone.because, alone.note, is_taken_back)


def _own(step: Step, of_step: StepAnswers, codes: PressesOfCode) -> StepVerdict:
    """Return the StepVerdict by the step's own answers alone."""
    answers = of_step.given
    verdict = StepVerdict(step.id, step.stage, step.title, UNANSWERED, answers=len(answers))
    verdict = replace(verdict, blames=step.blames)
    if step.not_fitted:
        return replace(verdict, verdict=NOT_FITTED, because=Unfitted(step.not_fitted))
    if not answers:
        return verdict
    last = answers[-1]
    if last.answer.word == SAID_NOT_FITTED:
        return replace(verdict, verdict=NOT_FITTED, because=Unfitted(last.answer.note))
    verdict = replace(verdict, note=last.answer.note, observer=last.answer.observer)
    said = _OF_WORD.get(last.answer.word or "")
    if said in _WORD_DECIDES:
        return replace(verdict, verdict=said)
    if isinstance(step, LineCheck):
        found = LineFound(last.answer.note, last.answer.drawn)
        return replace(verdict, verdict=said or UNANSWERED, because=found, note="")
    if isinstance(step, KeyPress) and last.answer.heard:
        return _pressed(verdict, step.press, of_step, codes)
    if isinstance(step, Reply) and last.answer.data is not None:
        return _replied(verdict, step, last.answer.data, of_step.errors)
    if isinstance(step, TypedBack) and last.answer.data is not None:
        return _returned(verdict, Returned(step.typed, last.answer.data, of_step.errors))
    if last.against is None or not isinstance(step, ScreenStep):
        return _compared(verdict, step, last.answer, said)
    shown = replace(step, expected=expected_with(step, last.against))
    compared = _compared(verdict, shown, last.answer, said)
    return with_faults(last.against, compared, _compared(verdict, step, last.answer, None))


def _compared(verdict: StepVerdict, step: Step, answer: Answer, said: str | None) -> StepVerdict:
    if isinstance(step, Measure):
        return measured(verdict, step, answer.value)
    if isinstance(step, ScreenStep) and step.expected is not None and answer.seen is not None:
        asks_dots = isinstance(step, Look) and step.asks_dots
        missed = not_seen(step.expected, answer, asks_dots)
        verdict = replace(verdict, not_seen=missed)
        return of_screen(verdict, step.expected, answer, said)
    return replace(verdict, verdict=said or UNANSWERED)


def _replied(
    verdict: StepVerdict, step: Reply, came: bytes, errors: tuple[str, ...]
) -> StepVerdict:
    """Judge a reply: where only its form is given, one of that form is as good as the one named."""
    wanted = came if step.form and step.allows(came) else step.reply
    return _returned(verdict, Returned(wanted, came, errors, step.wanted if step.form else ""))


def _returned(verdict: StepVerdict, returned: Returned) -> StepVerdict:
    return replace(
        verdict,
        verdict=PASS if returned.is_right else FAIL,
        because=returned,
        evidence=None if returned.form else evidence.of_bytes(returned.wanted, returned.came),
    )


def _pressed(
    verdict: StepVerdict, press: Press, of_step: StepAnswers, codes: PressesOfCode
) -> StepVerdict:
    """Judge a press by what came: the last press counts.

    All of them together give the rate of a contact that fails at times.
    """
    presses = of_step.presses
    for record in of_step.given[len(presses) :]:
        before = presses[-1] if presses else NO_PRESS
        presses.append(_with_one_more(before, press, record.answer.heard, codes))
    because = presses[-1]
    fails = because.rate.is_flaky or because.noticed[0].fails
    return replace(verdict, verdict=FAIL if fails else PASS, because=because)


def _with_one_more(
    before: Pressed, press: Press, heard: Heard | None, codes: PressesOfCode
) -> Pressed:
    """Return what a press makes of those `before`; an answer without one changes nothing."""
    if heard is None:
        return before
    noticed = heard_as(press, heard, codes)
    worst_first = tuple(sorted(noticed, key=lambda one: not one.fails))
    return Pressed(worst_first, with_one_more(before.rate, noticed))


def heard_as(press: Press, heard: Heard, codes: PressesOfCode) -> tuple[Noticed, ...]:
    """Return what is noticed of a press by what was heard of it."""
    return notice(press, heard.events, Listening(heard.speed_baud, heard.data_bits, codes))
