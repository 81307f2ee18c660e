"""The walk over a keyboard: asks for presses, or lets any come, and answers each by the bytes that the press sent."""

from dataclasses import dataclass

from termprobe.plan.model import PRESS
from termprobe.verdict.model import UNANSWERED
from termprobe.observer.base import SKIPPED, Answer
from termprobe.observer.press import Ear, answer_of, fitting

LISTED, FREE = "listed", "free"
ORDERS = (LISTED, FREE)


@dataclass(frozen=True)
class Asked:
    """`step` is the press that is waited for; None where any may come."""

    step: object


@dataclass(frozen=True)
class Pressed:
    """A press was heard. `step` is the one it counts for, None where it fits none; `data` is what came."""

    step: object
    data: bytes


@dataclass(frozen=True)
class TakenBack:
    """The last press heard for `step` counts no more; None where there is none to take back, or to make again."""

    step: object


@dataclass(frozen=True)
class Unnamed:
    """A wish about one press cannot be met while any may come."""


class KeyWalk:
    """Walks over the presses of `run`'s plan.

    `command()` returns what the builder wants next, or None: `again`, `back`, `missing`, `skip REASON`, `stop`. `hand(step)`
    presses the key, where hands are at the board that can be told. `wait_s` is how long a press may take, None for ever.
    """

    def __init__(
        self,
        run,
        order=LISTED,
        wait_s=None,
        command=lambda: None,
        hand=None,
        listener=lambda event: None,
    ):
        self._run, self._order, self._wait_s = run, order, wait_s
        self._command, self._hand, self._tell = command, hand, listener
        self._steps = [
            step for step in run.plan.steps if step.kind == PRESS and not step.not_fitted
        ]
        self._ear = Ear(run)
        self._done = []
        """Steps answered in this sitting, in order."""
        self._wanted = None
        """The step to be asked next, where the builder went back to it."""

    def walk(self):
        """Ask until every press has an answer; return True then, False where the builder stopped. Raises LinkError."""
        self._run.poll()  # what comes before the first key is asked for does not count
        while (step := self._wanted or next(iter(self.left()), None)) is not None:
            is_named = self._order == LISTED or step is self._wanted
            self._wanted = None
            self._ear.keep(
                self._run.begin(step)
            )  # before it is asked for: a quick hand may be earlier than the question
            self._tell(Asked(step if is_named else None))
            if not self._wait(step, is_named):
                return False
        return True

    def left(self):
        """Return the presses without an answer, in order."""
        verdicts = {verdict.id: verdict.verdict for verdict in self._run.verdicts().steps}
        return [
            step
            for step in self._steps
            if verdicts[step.id] == UNANSWERED and not self._run.is_open(step)
        ]

    def _wait(self, step, is_named):
        """Wait for a press of `step`, or for any where none is named; return False where the walk ends."""
        if self._hand:
            self._hand(step)
        start_s = self._run.clock.now_s()
        while not (events := self._ear.hear(start_s, step)):
            command = self._command()
            if command:
                return self._obey(command, step if is_named else None)
            if self._wait_s is not None and self._run.clock.now_s() - start_s >= self._wait_s:
                if not is_named:
                    return False
                break
        self._take(step, events)
        return True

    def _take(self, step, events):
        """Let a press count: in listed order for `step`, in free order for the one that it fits."""
        came = b"".join(data for _, data, _ in events)
        if self._order == FREE and events:
            step = fitting([step, *self.left()], came)
        if step is None:
            self._tell(Pressed(None, came))
        else:
            self._answer(step, events)

    def _answer(self, step, events):
        answer = answer_of(step, events, self._run.link_format)
        self._run.record(step, answer)
        self._done.append(step)
        self._tell(Pressed(step, answer.data))

    def _obey(self, command, step):
        """Do what the builder wants, of `step` where one was asked for; return False for stop."""
        word, _, rest = command.partition(" ")
        if word == "stop":
            return False
        if word in ("back", "again"):
            self._go_back(word)
        elif step is None:
            self._tell(Unnamed())
        elif word == "missing":
            self._answer(step, ())
        elif word == "skip":
            self._run.record(
                step, Answer(SKIPPED, note=rest.strip() or "no reason given", observer="builder")
            )
            self._done.append(step)
        return True

    def _go_back(self, word):
        """Ask for the last press again; `back`: what came of it counts no more."""
        last = self._done.pop() if self._done else None
        if last is not None and word == "back":
            self._run.take_back(last)
        if last is None or word == "back":
            self._tell(TakenBack(last))
        self._wanted = last if self._order == LISTED or word == "again" else None
