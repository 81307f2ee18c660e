"""What a run tells its listener, as it happens: small frozen records."""

from dataclasses import dataclass

from termprobe.plan.model import Group, Step
from termprobe.observer.base import Answer


@dataclass(frozen=True)
class StepStarted:
    """The bytes of `step` are about to be sent."""

    step: Step


@dataclass(frozen=True)
class GroupSent:
    """A group has been handed to the line. `step` is its own step, which may stand before the one in progress."""

    step: Step
    group: Group


@dataclass(frozen=True)
class BytesReceived:
    """Bytes came from the board; they are hostile until shown by termprobe.notation."""

    step_id: str | None
    data: bytes
    error: str = ""


@dataclass(frozen=True)
class Answered:
    """An answer is safe in the run file."""

    step: Step
    answer: Answer


@dataclass(frozen=True)
class LeftOpen:
    """Nobody answered `step`; it stays unanswered for now."""

    step: Step
    reason: str = ""


@dataclass(frozen=True)
class ObserverTrouble:
    """An observer that should have answered could not; after several times in a row it is asked no more (`is_given_up`)."""

    observer: str
    text: str
    is_given_up: bool = False


@dataclass(frozen=True)
class LinkTrouble:
    """The line is lost; the step in progress stays unanswered until the run gets a link again."""

    text: str
