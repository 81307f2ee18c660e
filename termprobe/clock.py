"""Time: the system's, and one that tests and simulated boards crank by hand. Nothing else in termprobe reads a clock."""

import datetime
import time


class SystemClock:
    """The computer's own time."""

    def now_s(self):
        """Return monotonic seconds; only differences mean something."""
        return time.monotonic()

    def date(self):
        """Return the date and time of day in UTC, ISO 8601 to the second."""
        return datetime.datetime.now(datetime.timezone.utc).isoformat(timespec="seconds")

    def sleep_until(self, deadline_s):
        """Return when now_s() has reached `deadline_s`; at once where it has passed."""
        while (left_s := deadline_s - time.monotonic()) > 0:
            time.sleep(left_s)


class CrankedClock:
    """Time that moves only when somebody sleeps: an hour of settling takes no time at all, and runs are repeatable."""

    def __init__(self, start_s=0.0, date="2000-01-01T00:00:00+00:00"):
        self._now_s = start_s
        self._start = datetime.datetime.fromisoformat(date)

    def now_s(self):
        """Return seconds since the clock was made, plus `start_s`."""
        return self._now_s

    def date(self):
        """Return the made-up date, moved on by the seconds slept."""
        return (self._start + datetime.timedelta(seconds=self._now_s)).isoformat(timespec="seconds")

    def sleep_until(self, deadline_s):
        """Move the time on to `deadline_s`, never back."""
        self._now_s = max(self._now_s, deadline_s)
