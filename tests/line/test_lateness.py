"""How late an adapter delivers, by single characters on their way back."""

import pytest

from helpers.looped_line import LoopedInUse
from termprobe.clock import CrankedClock
from termprobe.line.lateness import plug_delay
from termprobe.link.base import LineFormat, Received


class LateLine(LoopedInUse):
    """What comes is delivered when a clock of the adapter ticks, and stamped then."""

    tick_s = 0.016

    def write(self, data):
        super().write(data)
        count = int(self._free_s / self.tick_s) + 1
        self._coming = [Received(count * self.tick_s, one.data, "") for one in self._coming]


@pytest.mark.parametrize("speed_baud", [300, 9600])
def test_a_late_adapter_is_found_late_and_the_worst_is_the_value(speed_baud):
    found = plug_delay(LateLine(CrankedClock(), LineFormat(speed_baud)))
    assert found.is_right is True and 0.012 < found.value <= 0.016
    assert f"{1000 * found.value:.0f} ms at worst" in found.said


def test_a_prompt_adapter_is_found_prompt():
    found = plug_delay(LoopedInUse(CrankedClock()))
    assert found.is_right is True and found.value == pytest.approx(0, abs=1e-9)


def test_without_a_plug_nothing_is_measured():
    found = plug_delay(LoopedInUse(CrankedClock(), spoil=lambda data: b""))
    assert (found.is_right, found.value) == (None, None)
