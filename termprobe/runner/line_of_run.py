"""The line of a run: what its board demands, and how checks use it, all kept in the run file."""

from collections.abc import Callable, Collection, Mapping, Sequence
from dataclasses import dataclass
from typing import Protocol, TypeVar

from termprobe.clock import Clock
from termprobe.journal.file import Journal
from termprobe.journal.records import Answered, Arrived
from termprobe.link.base import LineFormat, Link, Received
from termprobe.link.breaks import send_break
from termprobe.plan.model import LineCheck, Plan, Step, TypedBack
from termprobe.verdict.model import FAIL, PASS, StepVerdict

_TELLS = {PASS: True, FAIL: False}
"""Verdict of an earlier step: what it told."""

REPEATS_S = 0.1
"""How often a key that is held sends its code, where no person holds it."""

_T = TypeVar("_T")


@dataclass(frozen=True)
class Demands:
    """What the board demands of whoever sends to it."""

    gap_s: float = 0.0
    """Pause after each character."""
    handshake: str = "none"
    """none, xon-xoff or rts-cts."""


class OnLine(Protocol):
    """What a Run has of its line."""

    clock: Clock

    @property
    def link_format(self) -> LineFormat:
        """Speed and frame."""

    def on_link(self, action: Callable[[Link], _T]) -> _T:
        """Return what `action` makes of the link; where the line is lost, that is written down."""

    plan: Plan
    journal: Journal
    step: Step | None
    demands: Demands

    def verdict(self, step: Step) -> StepVerdict:
        """Return the verdict of a step so far."""

    def send(self, data: bytes) -> None:
        """Send bytes that are none of a step's groups."""

    def hand_over(self, data: bytes) -> None:
        """Send bytes at once: no pace is kept, and no handshake."""

    def poll_events(self, wait_s: float = 0.0) -> Sequence[Received]:
        """Return what has come."""


class LineOfRun:
    """A LineInUse of termprobe/line/in_use.py."""

    def __init__(self, run: OnLine, type_key: Callable[[str], None] | None = None) -> None:
        self.clock, self._run = run.clock, run
        self._type_key, self._held = type_key, ""

    def hold_key(self, key: str) -> None:
        """Have the key held that sends `key`, from now on; empty lets it go.

        Where `type_key` presses no keys a person holds it, who was asked to.
        """
        self._held = key

    @property
    def link_format(self) -> LineFormat:
        """Speed and frame."""
        return self._run.link_format

    @property
    def handshake(self) -> str:
        """What the board is said to keep."""
        return self._run.demands.handshake

    @property
    def text(self) -> bytes:
        """What the step in progress sends."""
        step = self._run.step
        return step.data if step else b""

    @property
    def last_text(self) -> bytes:
        """The last part of it."""
        step = self._run.step
        if step is None or not step.groups:
            return b""
        return step.groups[-1].data

    def told(self, word: str) -> bool | None:
        """Return whether all was right in the earlier step that the check calls `word`."""
        step = self._called(word)
        if step is None:
            return None
        return _TELLS.get(self._run.verdict(step).verdict)

    def measured(self, word: str) -> float | None:
        """Return what was measured in that step; None where nothing was."""
        step = self._called(word)
        if step is None or self._run.verdict(step).verdict != PASS:
            return None
        records = self._run.journal.records
        answers = [
            one.answer for one in records if isinstance(one, Answered) and one.step == step.id
        ]
        return answers[-1].value

    def came(self, word: str) -> bytes | None:
        """Return what came in that step; None where it was not answered."""
        step = self._called(word)
        if step is None or not self._run.verdict(step).answers:
            return None
        records = self._run.journal.records
        arrived = (one for one in records if isinstance(one, Arrived))
        return b"".join(one.data for one in arrived if one.step == step.id)

    def wanted(self, word: str) -> bytes | None:
        """Return what was to be typed in that step; None where there is none."""
        step = self._called(word)
        if isinstance(step, TypedBack):
            return step.typed
        return None

    def _called(self, word: str) -> Step | None:
        """Return the earlier step that the check in progress calls `word`."""
        step, plan = self._run.step, self._run.plan
        if not isinstance(step, LineCheck):
            return None
        step_id = dict(step.told_by).get(word, "")
        if step_id not in plan.index:
            return None
        return plan.step(step_id)

    def send(self, data: bytes) -> None:
        """Send `data` at the speed of the line."""
        self._run.send(data)

    def write(self, data: bytes) -> None:
        """Hand `data` to the line at once."""
        self._run.hand_over(data)

    def poll_events(self, wait_s: float = 0.0) -> Sequence[Received]:
        """Return what has come; wait at most `wait_s` for the first."""
        if self._held and self._type_key is not None:
            self.clock.sleep_until(self.clock.now_s() + REPEATS_S)
            self._type_key(self._held)
        return self._run.poll_events(wait_s)

    def lines(self) -> dict[str, bool] | None:
        """Return the control lines that the board drives, None where the port has none."""
        return self._run.on_link(lambda link: link.lines())

    def send_break(self, length_s: float) -> None:
        """Send a break of `length_s`, behind all that was sent."""
        self._run.on_link(lambda link: send_break(link, self.clock, length_s))

    def set_format(self, format: LineFormat) -> None:
        """Take another speed and frame; what is sent keeps the pace of the run's own."""
        self._run.on_link(lambda link: link.set_format(format))

    @property
    def abilities(self) -> Collection[str]:
        """What the link can do."""
        return self._run.on_link(lambda link: link.abilities)

    def counters(self) -> Mapping[str, int]:
        """Return the errors that the driver has counted."""
        return self._run.on_link(lambda link: link.counters())

    def set_line(self, line: str, on: bool) -> None:
        """Drive `rts`, `dtr` or `break`."""
        self._run.on_link(lambda link: link.set_line(line, on))
