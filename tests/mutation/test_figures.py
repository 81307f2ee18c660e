"""The share of killed mutants, and its interval, against tables and by hand."""

import pytest

from mutation.figures import HEAD, Figures, interval, row


@pytest.mark.parametrize(
    "killed, tried, low, high",
    [
        (0, 10, 0.0, 0.3085),
        (10, 10, 0.6915, 1.0),
        (5, 10, 0.1871, 0.8129),
        (9, 10, 0.5550, 0.9975),
    ],
)
def test_the_interval_is_that_of_clopper_and_pearson(killed, tried, low, high):
    """As tables of exact binomial limits print them, to four places."""
    assert interval(killed, tried) == pytest.approx((low, high), abs=5e-5)


def test_with_none_or_all_killed_one_end_is_that_of_a_power():
    """All killed of n at the lower end: the n-th root of 2.5 %."""
    assert interval(30, 30)[0] == pytest.approx(0.025 ** (1 / 30))
    assert interval(0, 30)[1] == pytest.approx(1 - 0.025 ** (1 / 30))


def test_a_row_stands_below_its_head_and_figures_add_up():
    found = row("verdict", Figures(tried=40, survived=4, new=1))
    assert found == "verdict        40      36         4    1    90.0%  76.3% to 97.2%"
    assert HEAD.index("  95 %") == found.index("  76.3%")
    assert row("plan", Figures(0, 0, 0)).split() == ["plan", "0", "0", "0", "0"]
    assert Figures(40, 4, 1) + Figures(20, 1, 0) == Figures(60, 5, 1)
