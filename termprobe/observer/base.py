"""The interface Observer, and what one answers. The strongest that can answer a step is asked first."""

from collections.abc import Callable
from dataclasses import dataclass
from typing import Protocol

from termprobe.clock import Clock
from termprobe.plan.model import Plan, Step
from termprobe.terminal.screen import differences

AS_EXPECTED, DIFFERS, UNSURE, DISPUTED, SKIPPED = (
    "as-expected",
    "differs",
    "unsure",
    "disputed",
    "skipped",
)
RETURNED, KEYBOARD, DUMP, EYES = 4, 3, 2, 1
"""Strength: returned bytes, the board's own keyboard, a dump, eyes."""


@dataclass(frozen=True)
class Answer:
    """What an observer says of a step. `word` is None where it asks for something else instead of answering."""

    word: str | None = None
    """as-expected, differs, unsure, disputed, skipped; None with `wish` or where only `value` or `data` speaks."""
    seen: tuple[str, ...] | None = None
    """The rows of the screen as seen, where the observer can tell."""
    cursor: tuple[int, int] | None = None
    value: float | None = None
    """measure: the reading, in the step's unit."""
    data: bytes | None = None
    """reply and typed-back: the bytes that came."""
    note: str = ""
    wish: str | None = None
    """repeat, slower, back, stop, or a note alone: what to do before answering."""
    bells: int | None = None
    """How often the bell rang since the screen was fresh, where the observer can tell."""
    heard: dict | None = None
    """press: what came, raw: `speed_baud` and `data_bits` of the line, `events` as [seconds after the request, hexadecimal,
    error] each."""
    observer: str = ""
    """Who says so; filled in by the run that asked."""
    strength: int = EYES
    """How far unmarked cells of `seen` may be trusted; filled in by the run that asked."""

    @property
    def speaks(self):
        """Whether it says something of the step, and is not a wish or a remark alone."""
        return not self.wish and (
            self.word is not None or self.value is not None or self.data is not None
        )


REPEAT, SLOWER, BACK, STOP = "repeat", "slower", "back", "stop"
"""Wishes. A note alone is an answer with neither word nor wish."""


def compared(step, rows, cursor=None, bells=None):
    """Return the Answer of an observer that sees the whole screen: as expected, or differs, and what was seen."""
    expected = step.expected
    same = not differences(expected.rows, rows)
    same = same and (
        cursor is None or expected.cursor is None or tuple(cursor) == tuple(expected.cursor)
    )
    same = same and (bells is None or bells == expected.bells)
    return Answer(AS_EXPECTED if same else DIFFERS, seen=tuple(rows), cursor=cursor, bells=bells)


class Observer(Protocol):
    """Whoever answers.

    An observer may also have `begin()`, called right before a step is sent that starts on a fresh screen; and one that speaks
    to a person has `acknowledge(text) -> bool`, which shows a caution and returns whether the person goes on.
    """

    name: str
    strength: int

    def can_answer(self, step: Step) -> bool:
        """Return whether this observer can answer that kind of step."""

    def answer(self, step: Step) -> Answer | None:
        """Return the answer to `step`, whose bytes have just been sent; None where it stays unanswered."""


@dataclass(frozen=True)
class Offer:
    """What a module here exports as OFFER: an option of the command line that brings its observer to a run."""

    option: str
    """As it is typed, `--dump`; it takes one value."""
    metavar: str
    help: str
    make: Callable[[str, Plan, Clock], Observer]
    """Makes the observer of the option's value, the plan and the system's clock; raises
    TermprobeError where there can be none."""
