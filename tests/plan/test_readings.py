"""Ranges of readings, and what a step knows of a reading before it is taken."""

import pytest

from termprobe.plan.model import Measure
from termprobe.plan.quantities import OVER_RANGE, reading_in_words
from termprobe.plan.readings import ANY, Band


def measure(**fields):
    return Measure("m", "s", "A reading", unit="V", **fields)


@pytest.mark.parametrize(
    "ends, text",
    [
        ((4.75, 5.25), "5 V \u00b1 5 %"),
        ((3.0, None), "at least 3 V"),
        ((None, 0.1), "at most 0.1 V"),
        ((None, None), ""),
    ],
)
def test_a_range_in_words(ends, text):
    assert Band(*ends).in_words("V") == text


def test_both_ends_of_a_range_belong_to_it():
    for value, is_held in ((4.74, False), (4.75, True), (5.25, True), (5.26, False)):
        assert Band(4.75, 5.25).holds(value) is is_held
    assert ANY.holds(-1e9) and Band(low=0.4).holds(OVER_RANGE)


def test_of_several_ranges_one_must_hold():
    step = measure(low=49, high=61, ranges=(Band(49, 51), Band(59, 61)))
    assert step.limits == "50 V \u00b1 2 % or 59 to 61 V"
    assert step.limits_with_edges == "49 to 51 V, that is 50 V \u00b1 2 %, or 59 to 61 V"
    assert [step.allows(value) for value in (49, 51, 52, 55, 59, 61)] == [1, 1, 0, 0, 1, 1]
    assert step.best == Band(49, 51)


def test_the_best_that_a_board_can_read_is_usual_and_can_be_read():
    assert measure(low=10, high=12.6, usual=Band(11.4)).best == Band(11.4, 12.6)
    assert measure(high=0.1, possible=Band(0)).best == Band(0, 0.1)
    assert measure(low=4.75, high=5.25).best == Band(4.75, 5.25)


def test_limits_for_one_baud_are_multiplied_all_of_them():
    step = measure(low=1, high=4, usual=Band(2, 3), possible=Band(0), ranges=(Band(1, 4),))
    assert step.times(10) == measure(
        low=10, high=40, usual=Band(20, 30), possible=Band(0), ranges=(Band(10, 40),)
    )


def test_what_no_instrument_shows_is_no_reading():
    diode = measure(low=0.4, possible=Band(0, 10), has_over_range=True)
    assert [diode.is_reading(value) for value in (-0.1, 0, 0.6, 99, OVER_RANGE)] == [0, 1, 1, 0, 1]
    assert not measure(low=4.75, high=5.25).is_reading(OVER_RANGE)


def test_a_reading_in_words():
    assert reading_in_words(4.9, "V") == "4.9 V"
    assert reading_in_words(3, "") == "3"
    assert reading_in_words(OVER_RANGE, "V") == "OL"
