"""How long a plan takes: the line and the board's pauses to send, people to look.

An estimate for planning: a decision and a key as in the keystroke-level model (Card, Moran and
Newell), and rests of the eye, how many of which a look needs is an own estimate.
"""

from collections.abc import Sequence
from dataclasses import dataclass

from termprobe.plan.covered import asked_of
from termprobe.plan.model import Ask, KeyPress, LineCheck, Look, Reply, Step, TypedBack

MS = 1000
DECIDE_S = 1.35
"""Making up one's mind: operator M of the keystroke-level model."""
GLANCE_S = 0.23
"""One rest of the eye; from memory."""
KEY_S = 0.28
"""A key that is known by heart: operator K of the keystroke-level model, 40 words a minute."""
TYPE_S = 0.5
"""A character that is read off the screen and typed on a strange keyboard: operator K of the
keystroke-level model, random letters.
"""
AT_ONCE = 4
"""So many spots the eye takes in before it must make up its mind anew: a regular screen. An own
estimate.
"""


@dataclass(frozen=True)
class Effort:
    """What a plan costs on a board on which all is well."""

    sending_s: float
    looks: int
    looking_s: float
    """From the last bit of each look to the key that answers it, all looks together."""
    presses: int
    """Keys pressed by the builder, on whichever keyboard."""


def effort(steps: Sequence[Step], character_s: float) -> Effort:
    """Return the Effort of `steps` on a line whose characters take `character_s`.

    What is not fitted or is covered costs nothing.
    """
    asked = asked_of(step for step in steps if not step.not_fitted)
    looks = [step for step in asked if isinstance(step, Look)]
    return Effort(
        sum(sending_s(step, character_s) for step in asked),
        len(looks),
        sum(builder_s(step) for step in looks),
        sum(_presses(step) for step in asked),
    )


def pressing_s(steps: Sequence[Step]) -> float:
    """Return the seconds that walking over the board's keyboard takes, and typing what is read."""
    asked = asked_of(step for step in steps if not step.not_fitted)
    return sum(builder_s(step) for step in asked if isinstance(step, KeyPress | TypedBack))


def sending_s(step: Step, character_s: float) -> float:
    """Return the seconds that the bytes of `step` and the pauses behind them take."""
    return sum(len(group.data) * character_s + group.settle_s for group in step.groups)


def step_ms(step: Step, character_s: float) -> int:
    """Return the milliseconds that `step` costs the builder, sending included.

    It is at least 1.
    """
    return max(1, round(MS * (sending_s(step, character_s) + builder_s(step))))


def builder_s(step: Step) -> float:
    """Return the seconds that `step` takes of the builder once all is sent.

    They are 0 where none is asked for, or it is bench work.
    """
    if isinstance(step, KeyPress):
        return TYPE_S
    if isinstance(step, TypedBack):
        return DECIDE_S + TYPE_S * (len(step.typed) - 1) + KEY_S
    if not isinstance(step, Look | Ask):
        return 0.0
    looking_s = DECIDE_S + step.glances * GLANCE_S + KEY_S
    if step.glances > AT_ONCE:
        looking_s += DECIDE_S
    return looking_s


def _presses(step: Step) -> int:
    if isinstance(step, TypedBack):
        return len(step.typed)
    return 0 if isinstance(step, Reply | LineCheck) else 1
