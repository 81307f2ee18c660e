"""Clopper and Pearson's intervals, against the closed forms at the ends and published values."""

import pytest

from helpers.intervals import clopper_pearson


@pytest.mark.parametrize("of", [1, 9, 59, 299])
def test_all_or_none_have_a_closed_form(of):
    """With none of n seen the upper bound is 1 - 0.025 ** (1 / n), and the other way round."""
    bound = 0.025 ** (1 / of)
    assert clopper_pearson(0, of) == (0.0, pytest.approx(1 - bound, abs=1e-9))
    assert clopper_pearson(of, of) == (pytest.approx(bound, abs=1e-9), 1.0)


def test_five_of_ten():
    """The figures of tables of the binomial distribution: 18.7 % to 81.3 %."""
    lower, upper = clopper_pearson(5, 10)
    assert (round(lower, 3), round(upper, 3)) == (0.187, 0.813)


def test_all_found_in_a_sample_of_299_is_99_percent_one_sided():
    """MIL-STD-883 method 5012: 299 of 299 found shows 99 % with 95 % confidence."""
    assert clopper_pearson(299, 299, level=0.90)[0] == pytest.approx(0.99, abs=1e-4)
    assert clopper_pearson(298, 298, level=0.90)[0] < 0.99
