"""A break lasts as long as it should, and comes after what was written."""

import pytest

from termprobe.clock import CrankedClock
from termprobe.errors import LinkSettingsError
from termprobe.link.base import LineFormat
from termprobe.link.breaks import send_break


class Line:
    """A link that notes what is done, and when."""

    name, format = "line", LineFormat(300)

    def __init__(self, has_left=True):
        self.clock, self.done, self.has_left = CrankedClock(), [], has_left

    def drain(self, limit_s):
        self.done.append("drain")
        return self.has_left

    def set_line(self, line, on):
        self.done.append((line, on, self.clock.now_s()))


@pytest.mark.parametrize("has_left", [True, False])
def test_a_break_of_a_quarter_second(has_left):
    line = Line(has_left)
    assert send_break(line, line.clock, 0.25) == has_left
    assert line.done == ["drain", ("break", True, 0.0), ("break", False, 0.25)]


def test_a_break_no_longer_than_a_character_is_none():
    line = Line()
    with pytest.raises(
        LinkSettingsError, match=r"longer than a character \(33.3 ms\), not 33.0 ms"
    ):
        send_break(line, line.clock, 0.033)
    assert line.done == []


def test_a_break_that_is_broken_off_does_not_stay(monkeypatch):
    line = Line()
    monkeypatch.setattr(line.clock, "sleep_until", lambda deadline_s: 1 / 0)
    with pytest.raises(ZeroDivisionError):
        send_break(line, line.clock, 0.25)
    assert line.done[-1] == ("break", False, 0.0)
