"""A line as checks of it use it, what they find, and what they have in common."""

from collections.abc import Collection, Mapping, Sequence
from typing import NamedTuple, Protocol

from termprobe.clock import Clock
from termprobe.link.base import LineFormat, Received

QUIET_S = 0.5
"""Where nothing has come for so long, with the time of the characters, nothing more will."""
WAITED_TIMES = 2
"""An adapter that is so much slower than it says is still waited for."""
SETTLE_S = 0.05
"""From driving a control line to reading it."""


class LineInUse(Protocol):
    """A line, as checks use it; a Run is such, and keeps all that goes over it."""

    clock: Clock

    @property
    def link_format(self) -> LineFormat:
        """Speed and frame."""

    def send(self, data: bytes) -> None:
        """Send `data` at the speed of the line."""

    def poll_events(self, wait_s: float = 0.0) -> Sequence[Received]:
        """Return what has come; wait at most `wait_s` for the first."""

    def lines(self) -> dict[str, bool] | None:
        """Return the control lines that the other side drives; None where they cannot be read."""

    def set_line(self, line: str, on: bool) -> None:
        """Drive `rts` or `dtr`."""

    def send_break(self, length_s: float) -> None:
        """Send a break of `length_s`, behind all that was sent."""

    def set_format(self, format: LineFormat) -> None:
        """Take another speed and frame; `link_format` stays what it was."""

    @property
    def abilities(self) -> Collection[str]:
        """What the line can do, by the words of link/base.py."""

    def counters(self) -> Mapping[str, int]:
        """Return how many errors of each kind the driver has counted; empty where it does not."""

    @property
    def handshake(self) -> str:
        """What the board is said to keep: none, xon-xoff or rts-cts."""

    @property
    def text(self) -> bytes:
        """What the step in progress sends, and a check of it may send again."""

    @property
    def last_text(self) -> bytes:
        """The last part of it, such as a text behind a clear."""

    def write(self, data: bytes) -> None:
        """Hand `data` to the line at once: no pace is kept, and no handshake."""

    def told(self, word: str) -> bool | None:
        """Return whether all was right in the earlier step that the check calls `word`.

        None means that there is none, or that it has no such answer.
        """

    def measured(self, word: str) -> float | None:
        """Return what was measured in that step; None where nothing was."""

    def came(self, word: str) -> bytes | None:
        """Return what came in that step; None where it was not answered."""

    def wanted(self, word: str) -> bytes | None:
        """Return what was to be typed in that step; None where there is none."""


class Checked(NamedTuple):
    """What a check found."""

    is_right: bool | None
    """None where it cannot be told."""
    said: str
    drawn: tuple[str, ...] = ()
    """What a drawing shows better, in rows."""
    value: float | None = None
    """What was measured, for checks that are told of it."""


def echoed(line: LineInUse, data: bytes) -> bytes:
    """Send `data`; return what comes of it, until it is as long or nothing more comes."""
    line.poll_events()
    line.send(data)
    return b"".join(received.data for received in gathered(line, len(data)))


def gathered(line: LineInUse, count: int) -> list[Received]:
    """Return what comes, until there are `count` characters or nothing more comes."""
    came: list[Received] = []
    while sum(len(one.data) for one in came) < count and (
        more := line.poll_events(patience_s(line, count))
    ):
        came += more
    return came


def patience_s(line: LineInUse, count: int) -> float:
    """Return how long to wait where `count` characters are on their way."""
    return QUIET_S + WAITED_TIMES * count * line.link_format.character_s


def levels_with(line: LineInUse, driven: str, on: bool) -> dict[str, bool]:
    """Return the control lines with one of ours driven so; it is left on."""
    line.set_line(driven, on)
    wait(line, SETTLE_S)
    levels = line.lines() or {}
    line.set_line(driven, True)
    wait(line, SETTLE_S)
    return levels


def follows_ours(line: LineInUse, name: str) -> bool:
    """Return whether the control line `name` goes off with RTS or with DTR."""
    before = line.lines() or {}
    return before[name] and not all(
        levels_with(line, driven, False)[name] for driven in ("rts", "dtr")
    )


def counted_since(line: LineInUse, before: Mapping[str, int]) -> str:
    """Return what the driver has counted since it had counted `before`, behind a semicolon.

    Nothing is returned where it counts nothing; the line then says so in its note.
    """
    now = line.counters()
    if not now:
        return ""
    risen = {kind: count - before.get(kind, 0) for kind, count in now.items()}
    told = [f"{count} {kind}" for kind, count in risen.items() if count]
    return f"; errors counted by the driver: {', '.join(told) or 'none'}"


def wait(line: LineInUse, seconds: float) -> None:
    """Let `seconds` pass; what comes meanwhile is kept."""
    line.clock.sleep_until(line.clock.now_s() + seconds)
