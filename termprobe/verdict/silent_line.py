"""Steps of which nothing came while nothing had ever come over the line. Pure.

That says nothing of the board: the cable, the adapter or a switch may keep it away.
"""

from collections.abc import Iterator, Mapping
from dataclasses import replace

from termprobe.plan.model import Plan, ScreenStep, Step
from termprobe.verdict.given import Given, StepAnswers, has_text, shows_hearing
from termprobe.verdict.model import (
    BLOCKED,
    FAIL,
    PASS,
    UNANSWERED,
    Differing,
    Pressed,
    Returned,
    Silent,
    StepVerdict,
)


def of_silent_line(
    plan: Plan,
    found: Given,
    own: Mapping[str, StepVerdict],
    unheard: Mapping[str, StepVerdict],
) -> Iterator[tuple[str, StepVerdict]]:
    """Yield (step id, verdict) of each step of which nothing came, while nothing ever had.

    `own` holds the verdicts by the answers that count, `unheard` those by the answers that say that
    nothing came. Where nothing shows that the board hears either, a blank screen is told from a
    dead cable by nothing, and such a look is one of them.
    """
    answered = [(step, found.answers[step.id]) for step in plan.steps]
    is_heard = any(_is_heard(step, answers, own[step.id]) for step, answers in answered)
    for step, answers in answered:
        verdict = own[step.id]
        if step.id in unheard and verdict.because is None:
            silent = _silenced(unheard[step.id], is_heard)
            if found.has_come:
                silent = replace(silent, verdict=UNANSWERED)
            yield step.id, silent
        elif not (found.has_come or is_heard) and _is_blank(step, answers, verdict):
            yield step.id, _silenced(verdict, is_heard)


def _silenced(failed: StepVerdict, is_heard: bool) -> StepVerdict:
    """Return the verdict of a step that seems to have failed on a line that says nothing."""
    noticed = failed.because
    assert isinstance(noticed, Returned | Differing | Pressed)
    silent = Silent(noticed, is_heard)
    return replace(failed, verdict=BLOCKED, because=silent, evidence=None, differs=())


def _is_heard(step: Step, answers: StepAnswers, own: StepVerdict) -> bool:
    """Return whether what was answered to a step shows that the board hears."""
    if own.verdict not in (PASS, FAIL) or not answers.given:
        return False
    return shows_hearing(step, answers.given[-1].answer, own.verdict == PASS)


def _is_blank(step: Step, answers: StepAnswers, own: StepVerdict) -> bool:
    """Return whether a step failed because its screen was seen to be blank."""
    if own.verdict != FAIL or not isinstance(step, ScreenStep) or not step.data:
        return False
    seen = answers.given[-1].answer.seen
    return seen is not None and not has_text(seen)
