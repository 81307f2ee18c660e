"""How long the rest of a run takes, by how long the latest answers took. Pure."""

import statistics
from collections.abc import Iterable, Sequence

from termprobe.journal.records import Answered, Record, Sent, StepBegun
from termprobe.plan.effort import sending_s
from termprobe.plan.model import Step

LONG_LOOK_S = 600.0
"""Whoever takes longer for an answer has paused."""
KEPT_LOOKS = 50
"""The pace is that of the last so many answers."""
FEWEST_PACES = 3
"""From so many answers the time left is estimated, and from no fewer."""


def paces_s(answers_s: Iterable[float]) -> tuple[float, ...]:
    """Return those of the seconds that answers took, in order, by which the time left is told.

    A pause is none of them.
    """
    looks_s = [took_s for took_s in answers_s if 0 <= took_s < LONG_LOOK_S]
    return tuple(looks_s[-KEPT_LOOKS:])


def paces_by(records: Iterable[Record]) -> tuple[float, ...]:
    """Return the paces of a run by its records.

    An answer takes from the last bit sent for its step on, where nothing is sent from the step's
    beginning.
    """
    ready_at_s: dict[str, float] = {}
    answers_s: list[float] = []
    for record in records:
        match record:
            case StepBegun(step=step_id) | Sent(step=step_id):
                ready_at_s[step_id] = record.t
            case Answered(step=step_id) if step_id in ready_at_s:
                answers_s.append(record.t - ready_at_s.pop(step_id))
    return paces_s(answers_s)


def time_left_s(
    steps: Iterable[Step], character_s: float, answers_s: Sequence[float]
) -> float | None:
    """Return the seconds that `steps` will take if all is well, None after too few answers.

    `answers_s` is how long the latest answers took, without the sending.
    """
    if len(answers_s) < FEWEST_PACES:
        return None
    left = list(steps)
    line_s = sum(sending_s(step, character_s) for step in left)
    return line_s + len(left) * statistics.median(answers_s)
