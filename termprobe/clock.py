"""Time: the system's, and one that tests and simulated boards crank by hand.

Nothing else in termprobe reads a clock.
"""

import datetime
import time
from typing import Protocol


class Clock(Protocol):
    """Whatever tells the time, and waits."""

    def now_s(self) -> float:
        """Return seconds that never run back; only differences mean something."""

    def date(self) -> str:
        """Return the date and time of day in UTC, ISO 8601 to the second."""

    def sleep_until(self, deadline_s: float) -> None:
        """Return when now_s() has reached `deadline_s`; at once where it has passed."""


class SystemClock:
    """The computer's own time."""

    def now_s(self) -> float:
        """Return monotonic seconds."""
        return time.monotonic()

    def date(self) -> str:
        """Return the date and time of day in UTC, ISO 8601 to the second."""
        return datetime.datetime.now(datetime.UTC).isoformat(timespec="seconds")

    def sleep_until(self, deadline_s: float) -> None:
        """Sleep until now_s() has reached `deadline_s`; not at all where it has passed."""
        while (left_s := deadline_s - time.monotonic()) > 0:
            time.sleep(left_s)


class CrankedClock:
    """Time that moves only when somebody sleeps.

    An hour of settling takes no time at all, and runs are repeatable.
    """

    def __init__(self, start_s: float = 0.0, date: str = "2000-01-01T00:00:00+00:00") -> None:
        self._now_s = start_s
        self._start = datetime.datetime.fromisoformat(date)

    def now_s(self) -> float:
        """Return seconds since the clock was made, plus `start_s`."""
        return self._now_s

    def date(self) -> str:
        """Return the made-up date, moved on by the seconds slept."""
        moved = self._start + datetime.timedelta(seconds=self._now_s)
        return moved.isoformat(timespec="seconds")

    def sleep_until(self, deadline_s: float) -> None:
        """Move the time on to `deadline_s`, never back."""
        self._now_s = max(self._now_s, deadline_s)
