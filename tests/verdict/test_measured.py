"""A reading against its limits."""

import pytest

from helpers.bench_plan import step
from termprobe.verdict.measured import measured
from termprobe.verdict.model import UNANSWERED, StepVerdict

SUPPLY = step("m", "s", "measure", unit="V", low=4.75, high=5.25, source="a data sheet")
OPEN = StepVerdict("m", "s", "Supply", UNANSWERED)


@pytest.mark.parametrize(
    "value, verdict", [(4.75, "pass"), (5.25, "pass"), (4.74, "fail"), (5.26, "fail")]
)
def test_a_reading_on_the_limit_is_inside(value, verdict):
    found = measured(OPEN, SUPPLY, value)
    assert found.verdict == verdict and found.because.value == value
    assert found.because.is_inside == (verdict == "pass")
    assert found.because.source == "a data sheet"


def test_without_a_reading_it_stays_open_and_its_limits_are_known():
    found = measured(OPEN, SUPPLY, None)
    assert found.verdict == UNANSWERED and found.because.limits
