"""The walk over a keyboard: asks for presses, or lets any come.

It answers each by the bytes that the press sent.
"""

from collections.abc import Callable
from dataclasses import dataclass

from termprobe.journal.records import SKIPPED, Answer
from termprobe.observer.press import Events, answer_of, bytes_of
from termprobe.observer.quick_ear import HeardPress, QuickEar
from termprobe.plan.model import KeyPress
from termprobe.runner.run import Run
from termprobe.verdict.model import FAIL

LISTED, FREE = "listed", "free"
ORDERS = (LISTED, FREE)
AGAIN, TAKE_BACK, NO_CODE_CAME = "again", "take-back", "missing"
SKIP_PRESS, STOP_WALK = "skip", "stop"
KEEP_PRESS = "keep"


@dataclass(frozen=True)
class WalkWish:
    """What the builder wants in the middle of the walk."""

    word: str
    """again: press the last key once more; take-back: the last press counts no more; missing:
    nothing came; keep: the last press counts as it came; skip; stop.
    """
    reason: str = ""
    """Of skip."""


@dataclass(frozen=True)
class Asked:
    """`step` is the press that is waited for; None where any may come."""

    step: KeyPress | None


@dataclass(frozen=True)
class PressTaken:
    """A press was heard.

    `step` is the one it counts for, None where it fits none; `data` is what came.
    """

    step: KeyPress | None
    data: bytes


@dataclass(frozen=True)
class CountsNoMore:
    """The last press heard for `step` was taken back.

    `step` is None where there is none to take back, or to make again.
    """

    step: KeyPress | None


@dataclass(frozen=True)
class Unnamed:
    """A wish about one press cannot be met while any may come."""


WalkEvent = Asked | PressTaken | CountsNoMore | Unnamed


def _no_command() -> WalkWish | None:
    return None


def _deaf(event: WalkEvent) -> None:
    pass


class KeyWalk:
    """Walks over the presses of `run`'s plan.

    `command()` returns what the builder wants next, or None. `hand(step)` presses the key, where
    hands are at the board that
    can be told. `wait_s` is how long a press may take, None for ever. `listener` is told how the
    walk goes. `decide()` is waited for after a wrong press: keep, again, take-back or stop.
    """

    def __init__(
        self,
        run: Run,
        order: str = LISTED,
        wait_s: float | None = None,
        command: Callable[[], WalkWish | None] = _no_command,
        hand: Callable[[KeyPress], None] | None = None,
        listener: Callable[[WalkEvent], None] = _deaf,
        decide: Callable[[], WalkWish] | None = None,
    ) -> None:
        self._run, self._is_free, self._wait_s = run, order == FREE, wait_s
        self._command, self._hand, self._tell = command, hand, listener
        self._decide = decide
        self._ear = QuickEar(run, [code for code, _ in run.plan.key_codes])
        self._heard: KeyPress | None = None
        """The step for which the press heard last counts."""
        self._wanted: KeyPress | None = None
        """The step to be asked next, where the builder went back to it."""

    def walk(self) -> bool:
        """Ask until every press has an answer; return True then, False where the builder stopped.

        Raises LinkError.
        """
        self._run.poll()  # what comes before the first key is asked for does not count
        while (step := self._next()) is not None:
            is_named = not self._run.course.is_any_press(step, self._is_free)
            self._wanted = None
            # Before it is asked for: a quick hand may be earlier than the question.
            self._ear.keep(self._run.begin(step))
            self._tell(Asked(step if is_named else None))
            if not (self._wait(step, is_named) and self._goes_on_after_last()):
                return False
        return True

    def _goes_on_after_last(self) -> bool:
        """Wait for what may follow the last press of all; return False where the builder stops."""
        if self._next() is not None:
            return True
        self._settle()
        return self._goes_on()

    def _next(self) -> KeyPress | None:
        return self._wanted or next(iter(self._run.course.presses_left()), None)

    def _wait(self, step: KeyPress, is_named: bool) -> bool:
        """Wait for a press of `step`, or for any where none is named.

        Return False where the walk ends.
        """
        if self._hand:
            self._hand(step)
        self._ear.wait_for(step.press, self._wait_s, is_quick=self._hand is None)
        while True:
            heard = self._ear.listen()
            if heard is not None and not heard.is_more:
                return self._take(step, heard.events) and self._goes_on()
            if self._amend(heard) and self._is_undecided():
                return self._goes_on()
            command = self._command()
            if command:
                return self._obey(command, step if is_named else None)

    def _amend(self, heard: HeardPress | None) -> bool:
        """Judge the press heard last again, where more of it has come; return whether it was."""
        if heard is None or not heard.is_more or self._heard is None:
            return False
        self._answer(self._heard, heard.events, amends=True)
        return True

    def _goes_on(self) -> bool:
        """Have it decided what becomes of a wrong press; return False where the walk ends."""
        if self._is_undecided():
            self._settle()
        if self._decide is None or not self._is_undecided():
            return True
        wish = self._decide()
        self._heard = None
        self._run.poll()  # what was pressed meanwhile does not count
        self._ear.rest()
        return self._obey(wish, None)

    def _is_undecided(self) -> bool:
        """Return whether the press heard last is wrong, and somebody is there to decide."""
        heard = self._heard
        if heard is None or self._decide is None:
            return False
        return self._run.verdict(heard).verdict == FAIL

    def _settle(self) -> None:
        """Wait for whatever may still come of the press heard last."""
        while not self._ear.is_settled:
            heard = self._ear.listen()
            if heard is not None and not heard.is_more:
                return
            self._amend(heard)

    def _take(self, step: KeyPress, events: Events) -> bool:
        """Let a press count for the step that is meant.

        Return False where nothing came, and nothing is missed.
        """
        meant = self._run.course.press_meant(step, events, self._is_free)
        self._heard = None
        if events:
            self._heard = meant
        if meant is not None:
            self._answer(meant, events)
        elif events:
            self._tell(PressTaken(None, bytes_of(events)))
        return meant is not None or bool(events)

    def _answer(self, step: KeyPress, events: Events, amends: bool = False) -> None:
        answer = answer_of(step.press, events, self._run.link_format)
        self._run.record(step, answer, amends)
        self._tell(PressTaken(step, answer.data or b""))

    def _obey(self, command: WalkWish, step: KeyPress | None) -> bool:
        """Do what the builder wants, of `step` where one was asked for; return False for stop."""
        if command.word == STOP_WALK:
            return False
        if command.word in (TAKE_BACK, AGAIN):
            self._go_back(command.word)
        elif command.word == KEEP_PRESS:
            return True
        elif step is None:
            self._tell(Unnamed())
        elif command.word == NO_CODE_CAME:
            self._answer(step, ())
        elif command.word == SKIP_PRESS:
            note = command.reason.strip() or "no reason given"
            self._run.record(step, Answer(SKIPPED, note=note, observer="builder"))
        return True

    def _go_back(self, word: str) -> None:
        """Ask for the last press again; where it is taken back, what came of it counts no more."""
        last, self._heard = self._run.course.last_press(), None
        if last is not None and word == TAKE_BACK:
            self._run.take_back(last)
        if last is None or word == TAKE_BACK:
            self._tell(CountsNoMore(last))
        self._wanted = None
        if word == AGAIN or not self._is_free:
            self._wanted = last
