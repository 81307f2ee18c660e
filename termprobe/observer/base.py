"""The interface Observer, and what one says.

The strongest that can answer a step is asked first.
"""

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import Protocol, runtime_checkable

from termprobe.clock import Clock
from termprobe.journal.kept import KeptPhoto
from termprobe.journal.records import AS_EXPECTED, DIFFERS, Answer
from termprobe.link.base import LineFormat, Received
from termprobe.plan.model import Plan, Step, TypedBack
from termprobe.terminal.dots import Misdrawn
from termprobe.terminal.screen import Screen, differences

REPEAT, SLOWER, BACK, STOP = "repeat", "slower", "back", "stop"
FORWARD, SKIP_STAGE = "forward", "stage"
BOARD_KEYBOARD = "board keyboard"
"""The observer of an answer that was given on the board's own keyboard."""


@dataclass(frozen=True)
class Wish:
    """What an observer wants done before it answers."""

    word: str
    """repeat, slower, back, forward, stage or stop."""
    reason: str = ""
    """Of stage, the rest of which is left out: why."""


@dataclass(frozen=True)
class Remark:
    """Something to be written down; the answer comes later."""

    text: str
    photo: KeptPhoto | None = None
    """The photo that is put to it."""


Said = Answer | Wish | Remark
"""What an observer says when it is asked."""


class Observer(Protocol):
    """Whoever answers."""

    @property
    def name(self) -> str:
        """What reports call it."""

    @property
    def strength(self) -> int:
        """How far it is to be trusted: RETURNED, KEYBOARD, DUMP or EYES of journal/records.py."""

    def can_answer(self, step: Step) -> bool:
        """Return whether this observer can answer that kind of step."""

    def answer(self, step: Step) -> Said | None:
        """Return what it says of `step`, whose bytes have just been sent.

        None means that the step stays unanswered.
        """


@dataclass(frozen=True)
class Offer:
    """An option of the command line that brings an observer to a run.

    The observer's module exports it as OFFER.
    """

    option: str
    """As it is typed, `--dump`; it takes one value."""
    metavar: str
    help: str
    make: Callable[[str, Plan, Clock], Observer]
    """Makes the observer of the option's value, the whole script's plan and the system's clock;
    raises TermprobeError where there can be none."""


@runtime_checkable
class FreshScreenObserver(Observer, Protocol):
    """An observer that counts something from a fresh screen on."""

    def begin(self) -> None:
        """Count from here: a step is about to be sent that starts on a fresh screen."""


@runtime_checkable
class Person(Observer, Protocol):
    """An observer that speaks to a person."""

    def acknowledge(self, text: str) -> Wish | None:
        """Show a caution; return None once the person has read it, else the wish: stage or stop."""

    def switch_off(self, step: Step) -> bool:
        """Say that the board must be switched off by the rule of `step`.

        Return whether the person wants to try the step again.
        """

    def typed(self, step: TypedBack, data: bytes) -> Said | None:
        """Return what the person says where `data` came and not the step's word.

        None means that it is to be typed again.
        """


class Incoming(Protocol):
    """What comes from the board while a step is in progress; a Run is such."""

    clock: Clock

    @property
    def data(self) -> bytes:
        """What has come since the step in progress began."""

    @property
    def link_format(self) -> LineFormat:
        """Speed and frame of the line."""

    def poll(self, wait_s: float = 0.0) -> bytes:
        """Return what has come since the last call; wait at most `wait_s` for the first byte."""

    def poll_events(self, wait_s: float = 0.0) -> Sequence[Received]:
        """Return the same with the moment and the error of each piece."""


def compared(
    expected: Screen,
    rows: Sequence[str],
    cursor: tuple[int, int] | None = None,
    bells: int | None = None,
    misdrawn: tuple[Misdrawn, ...] | None = None,
) -> Answer:
    """Return the Answer of an observer that sees the whole screen.

    It is as expected, or differs, and holds what was seen. `misdrawn` is None where no dots are
    seen, as by a dump.
    """
    same = not differences(expected.rows, rows)
    if cursor is not None and expected.cursor is not None:
        same = same and tuple(cursor) == tuple(expected.cursor)
    if bells is not None:
        same = same and bells == expected.bells
    if misdrawn is not None:
        same = same and misdrawn == expected.misdrawn
    word = AS_EXPECTED if same else DIFFERS
    return Answer(word, seen=tuple(rows), cursor=cursor, bells=bells, misdrawn=misdrawn)
