"""Readings stand beside their limits, and on a line with them."""

import math

import pytest

from helpers.reports import step
from termprobe.plan.model import Measure
from termprobe.report.facts.readings import reading_facts, scale_of
from termprobe.verdict.model import Measured

VOLTS = Measure("a", "link", "Plus five", unit="V", low=4.75, high=5.25, source="a sheet")


def test_a_reading_is_told_with_limits_source_and_what_was_read_before():
    verdict = step("fail", title="Plus five", because=Measured(5.5, "V", "x", False))
    found = reading_facts(VOLTS, verdict)
    assert found[:6] == (
        "Plus five",
        "5.5 V",
        "4.75 to 5.25 V, that is 5 V ± 5 %",
        "fail",
        "bad",
        "a sheet",
    )
    assert found.scale.low < found.scale.high < found.scale.at < 1


def test_what_was_not_measured_has_no_place_on_the_line():
    found = reading_facts(VOLTS, step("unanswered"))
    assert found.reading == "not measured" and found.scale is None


@pytest.mark.parametrize("value, low, high", [(math.inf, 0, 1), (1.0, None, None), (None, 0, 1)])
def test_no_line_without_numbers(value, low, high):
    assert scale_of(value, low, high) is None


def test_a_limit_that_is_missing_is_the_end_of_the_line():
    found = scale_of(0.05, None, 0.1)
    assert found.low == 0 and 0 < found.at < found.high < 1
    assert scale_of(5.0, 5.0, 5.0).at == pytest.approx(0.5)
