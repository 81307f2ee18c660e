"""The two clocks keep to one contract; one of them takes no time."""

import datetime

import pytest

from termprobe.clock import CrankedClock, SystemClock


@pytest.mark.parametrize("clock", [SystemClock(), CrankedClock()], ids=["system", "cranked"])
class TestContract:
    def test_sleeping_reaches_the_deadline(self, clock):
        deadline_s = clock.now_s() + 0.01
        clock.sleep_until(deadline_s)
        assert clock.now_s() >= deadline_s

    def test_a_deadline_that_has_passed_moves_nothing_back(self, clock):
        before_s = clock.now_s()
        clock.sleep_until(before_s - 1000)
        assert clock.now_s() >= before_s

    def test_the_date_is_utc_to_the_second(self, clock):
        date = datetime.datetime.fromisoformat(clock.date())
        assert date.utcoffset() == datetime.timedelta(0) and date.microsecond == 0


def test_a_cranked_clock_moves_by_what_is_slept_alone():
    clock = CrankedClock(date="2031-05-01T23:59:00+00:00")
    clock.sleep_until(3600)
    assert clock.now_s() == 3600
    assert clock.date() == "2031-05-02T00:59:00+00:00"


def test_the_date_of_the_system_clock_is_today():
    now = datetime.datetime.now(datetime.UTC)
    date = datetime.datetime.fromisoformat(SystemClock().date())
    assert abs(date - now) < datetime.timedelta(minutes=1)
