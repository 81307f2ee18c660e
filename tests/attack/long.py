"""Hours of soak and session by a clock that needs no time: memory and file."""

import os
import pathlib
import tempfile
from typing import NamedTuple

from helpers.looped_line import LoopedLine
from termprobe.cli.soaked import load_soak
from termprobe.clock import CrankedClock
from termprobe.journal.file import Journal
from termprobe.journal.records import BoardUnderTest, Header
from termprobe.journal.soaking import SOAK, SoakBegun
from termprobe.line.soak import Soak, SoakLength
from termprobe.line.stream import PRINTABLE, Stream
from termprobe.link.base import LineFormat
from termprobe.report.soak_page import told_of

from .long_session import hold_for
from .memory import megabytes
from .tables import heading, row

USUAL = 24
"""Hours of each."""
HOUR_S = 3600.0
DAYS_OF_A_WEEK = 7
SLOW = LineFormat(300, 8, "none", 1)
MOST_GROWN_MB = 4.0


class Hour(NamedTuple):
    """What an hour has left behind."""

    megabytes: float
    file_bytes: int


class Watch:
    """Notes at each full hour what memory and file have become."""

    def __init__(self, path):
        self._path, self._before = path, os.path.getsize(path)
        self.hours = []

    def see(self, seconds):
        """Take note that so many seconds have passed."""
        if seconds < HOUR_S * (len(self.hours) + 1):
            return
        size = os.path.getsize(self._path)
        self.hours.append(Hour(megabytes(), size - self._before))
        self._before = size


def attack(request):
    """Let so many hours pass in each, print what they took, and return how much failed."""
    hours = request.how_many(USUAL)
    columns = (
        "hours of",
        "MB: first hour, first of the last sitting, last",
        "bytes of file in them",
        "failed",
    )
    heading("Hours by a simulated clock", *columns)
    with tempfile.TemporaryDirectory(prefix="termprobe-attack-") as folder:
        inside, week = pathlib.Path(folder), hours * DAYS_OF_A_WEEK
        failed = _told(f"{hours} h of soak", _soaked(inside / "a", hours, 1))
        found = _soaked(inside / "b", week, DAYS_OF_A_WEEK)
        failed += _told(f"{week} h of soak in 7 sittings", found, DAYS_OF_A_WEEK)
        return failed + _told(f"{hours} h of session", _held(inside / "c", hours))


def _told(name, hours, sittings=1):
    """Print what hours took; return 1 where memory grows, or the file ever faster, else 0.

    Memory must not grow within the last of the sittings; before it the file is read back.
    """
    first, begun, last = hours[0], hours[-(len(hours) // sittings)], hours[-1]
    is_kept = last.megabytes - begun.megabytes < MOST_GROWN_MB
    is_linear = last.file_bytes < 2 * first.file_bytes
    memory = f"{first.megabytes:.1f}, {begun.megabytes:.1f}, {last.megabytes:.1f}"
    failed = int(not (is_kept and is_linear))
    row(name, memory, f"{first.file_bytes:,}, {last.file_bytes:,}", failed)
    return failed


def _soaked(path, hours, sittings):
    """Return the Hours of a soak at 300 baud, in so many sittings that go on by its file."""
    begun = SoakBegun(300, 8, "none", 1, "none", True, 1, None, hours * HOUR_S)
    journal = Journal.create(path, Header(BoardUnderTest("7"), script=SOAK), CrankedClock())
    journal.append(begun)
    journal.close()
    watch = Watch(path)
    for sitting in range(1, sittings + 1):
        _sit(path, watch, SoakLength(None, hours * HOUR_S * sitting / sittings))
    soaked = load_soak(str(path))
    assert soaked.exit_code == 0 and soaked.far.seconds >= hours * HOUR_S, soaked.far
    return watch.hours


def _sit(path, watch, length):
    """Go on with a soak until `length` is reached."""
    far, clock = load_soak(str(path)).far, CrankedClock()
    journal = Journal.reopen(path, clock)

    def keep(now):
        journal.append(told_of(now))
        journal.forget()
        watch.see(now.seconds)

    line, stream = LoopedLine(clock, SLOW), Stream(PRINTABLE, 1)
    Soak(line, clock, stream, far, keep, lambda now: None).carry_out(length)
    journal.close()


def _held(path, hours):
    """Return the Hours of a full-screen session, a look answered every five minutes."""
    watches = []

    def see(seconds):
        watches[:] = watches or [Watch(path)]
        watches[0].see(seconds)

    hold_for(hours * HOUR_S, path, see)
    return watches[0].hours
