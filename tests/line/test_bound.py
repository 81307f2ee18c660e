"""Bounds of error rates, against tables, the rule of three, and scipy's beta distribution."""

import pytest

from helpers.scipy_parts import stats
from termprobe.line.bound import MOST_EXACT, upper_bound


@pytest.mark.parametrize("tried", [100, 1000, 10**6, 10**8])
def test_of_no_error_it_is_three_in_all_that_were_tried(tried):
    """Rule of three: Hanley and Lippman-Hand, JAMA 249 (1983); -ln 0.05 is 2.996."""
    assert upper_bound(0, tried) == pytest.approx(3 / tried, rel=0.017)
    assert upper_bound(0, tried) == pytest.approx(1 - 0.05 ** (1 / tried), rel=1e-6)


@pytest.mark.parametrize("errors", [0, 1, 2, 10, 99, 1000])
@pytest.mark.parametrize("tried", [1001, 50_000, 10**7])
def test_it_is_the_upper_limit_of_clopper_and_pearson(errors, tried):
    exact = stats().beta.ppf(0.95, errors + 1, tried - errors)
    assert upper_bound(errors, tried) == pytest.approx(exact, rel=1e-5)


def test_beyond_the_exact_ones_it_hardly_differs():
    errors, tried = MOST_EXACT + 1, 10**6
    exact = stats().beta.ppf(0.95, errors + 1, tried - errors)
    assert upper_bound(errors, tried) == pytest.approx(exact, rel=0.002)


def test_where_nothing_is_known_it_is_all():
    assert upper_bound(0, 0) == upper_bound(5, 5) == 1.0
