"""How far the session is: what has its verdict, what is still due, and how long that will take.

Pure.
"""

import statistics
from collections.abc import Iterable

from termprobe.plan.model import PRESS, Step
from termprobe.session.state import State
from termprobe.verdict.model import FAIL, NOT_FITTED, PASS, UNANSWERED

MEASURED = 3
"""So many answers it takes before a time is told."""
MINUTE_S, HOUR_S = 60, 3600


def verdict_of(state: State, step_id: str) -> str:
    """Return the verdict of a step as a word."""
    found = state.verdicts.get(step_id)
    return UNANSWERED if found is None else found.verdict


def is_any_key(state: State) -> bool:
    """Return whether any key may be pressed.

    So it is in free order, but where a key answered already is to be pressed again.
    """
    step = state.step
    return state.is_free and step.kind == PRESS and verdict_of(state, step.id) == UNANSWERED


def last_press(state: State) -> Step | None:
    """Return the step of the last press, or None."""
    answered = (state.plan.step(step_id) for step_id in reversed(state.trail))
    return next((step for step in answered if step.kind == PRESS), None)


def steps_left(state: State, steps: Iterable[Step]) -> list[Step]:
    """Return those of `steps` that are still to be answered if all goes well."""
    words = {step.id: verdict_of(state, step.id) for step in state.plan.steps}
    hoped = {step_id for step_id, word in words.items() if word in (PASS, UNANSWERED)}
    return [step for step in steps if words[step.id] == UNANSWERED and not step.is_covered(hoped)]


def progress(state: State) -> tuple[int, int, int]:
    """Return (done, failed, left): steps with a verdict, those of them that failed, those to come.

    Only what is fitted counts.
    """
    words = [verdict_of(state, step.id) for step in state.plan.steps]
    done = len(words) - words.count(UNANSWERED) - words.count(NOT_FITTED)
    return done, words.count(FAIL), len(steps_left(state, state.plan.steps))


def time_left_s(state: State) -> float | None:
    """Return the seconds that the steps left will take if all is well, at the pace measured so far.

    None before three answers.
    """
    if len(state.looks_s) < MEASURED:
        return None
    left = steps_left(state, state.plan.steps)
    groups = [group for step in left for group in step.groups]
    character_s = state.format.character_s
    line_s = sum(len(group.data) * character_s + group.settle_s for group in groups)
    return line_s + len(left) * statistics.median(state.looks_s)


def settings_due(state: State, step: Step) -> tuple[tuple[str, str], ...]:
    """Return ((option, position), ...) that must be set on the board before `step`."""
    return tuple(
        (option, position)
        for option, position in step.settings
        if state.options.get(option) != position
    )


def shown_time(seconds: float) -> str:
    """Return a duration as people say it."""
    if seconds < 1.5 * MINUTE_S:
        return f"about {max(round(seconds / 10) * 10, 10)} s"
    if seconds < 1.5 * HOUR_S:
        return f"about {round(seconds / MINUTE_S)} min"
    return f"about {seconds / HOUR_S:.1f} h"
