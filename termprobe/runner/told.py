"""What a run tells its listener, as it happens.

A run tells each record once it is in the run file, and what no record holds.
"""

from collections.abc import Callable
from dataclasses import dataclass

from termprobe.journal.records import Record
from termprobe.plan.model import Step
from termprobe.verdict.model import StepVerdict


@dataclass(frozen=True)
class LeftOpen:
    """Nobody answered `step`; it stays unanswered for now."""

    step: Step


@dataclass(frozen=True)
class ObserverTrouble:
    """An observer that should have answered could not.

    After several times in a row it is asked no more (`is_given_up`).
    """

    observer: str
    text: str
    is_given_up: bool = False


@dataclass(frozen=True)
class SwitchOff:
    """The rule of `step` says that the board must be switched off; the run stops there."""

    step: Step


@dataclass(frozen=True)
class GoneBack:
    """A step that was answered is asked again; `verdict` is what the earlier answer shows."""

    verdict: StepVerdict


@dataclass(frozen=True)
class SearchBegun:
    """It is being worked out what would explain what has failed; the next question waits for it."""


RunEvent = Record | LeftOpen | ObserverTrouble | SwitchOff | GoneBack | SearchBegun
Listener = Callable[[RunEvent], None]


def deaf(event: RunEvent) -> None:
    """Listen to nothing."""
