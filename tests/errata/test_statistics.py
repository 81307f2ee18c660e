"""Fisher, Holm, Wilson: as worked out by hand, as another's hands have them, and what they keep."""

import random
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from helpers.examples import examples
from helpers.scipy_parts import stats
from termprobe.errata.statistics import (
    ALPHA,
    Fourfold,
    can_tell,
    corrected,
    fisher,
    holm,
    least_p,
    wilson,
)

COUNTS = st.integers(0, 30)
TABLES = st.builds(Fourfold, COUNTS, COUNTS, COUNTS, COUNTS)


@pytest.mark.parametrize(
    "failed, of, failed_elsewhere, of_elsewhere, p",
    [
        (5, 5, 0, 4, Fraction(1, 126)),
        (4, 4, 0, 4, Fraction(2, 70)),
        (3, 3, 0, 4, Fraction(1, 35)),
        (3, 3, 0, 3, Fraction(1, 10)),
        (2, 2, 0, 5, Fraction(1, 21)),
        (1, 1, 0, 20, Fraction(1, 21)),
        (6, 6, 0, 6, Fraction(2, 924)),
        (3, 4, 1, 4, Fraction(34, 70)),
        (0, 4, 0, 4, Fraction(1)),
        (0, 0, 0, 0, Fraction(1)),
    ],
)
def test_fisher_is_as_worked_out_in_whole_numbers(failed, of, failed_elsewhere, of_elsewhere, p):
    table = Fourfold(failed, of - failed, failed_elsewhere, of_elsewhere - failed_elsewhere)
    assert fisher(table) == float(p)


@examples(50)
@given(TABLES)
def test_fisher_is_as_another_library_has_it(table):
    theirs = stats().fisher_exact([table[:2], table[2:]]).pvalue
    assert fisher(table) == pytest.approx(theirs, rel=1e-7)
    assert least_p(table) <= fisher(table) * (1 + 1e-12)


def test_fisher_is_the_same_read_from_any_side():
    for table in (Fourfold(5, 1, 2, 9), Fourfold(8, 2, 1, 5)):
        a, b, c, d = table
        sides = (Fourfold(c, d, a, b), Fourfold(b, a, d, c), Fourfold(a, c, b, d))
        assert {fisher(side) for side in sides} == {fisher(table)}
    assert fisher(Fourfold(8, 2, 1, 5)) == pytest.approx(0.03497, abs=1e-5)


@pytest.mark.parametrize(
    "count, of, low, high",
    [(7, 9, 0.453, 0.937), (9, 9, 0.701, 1), (19, 20, 0.764, 0.991), (0, 10, 0, 0.278)],
)
def test_wilson_is_as_published(count, of, low, high):
    assert wilson(count, of) == pytest.approx((low, high), abs=6e-4)


def test_wilson_of_none_is_anything_and_never_leaves_0_to_1():
    assert wilson(0, 0) == (0, 1)
    for of in range(1, 40):
        for count in (0, of // 2, of):
            low, high = wilson(count, of)
            assert 0 <= low <= count / of + 1e-12 <= high + 2e-12 <= 1 + 2e-12


def test_wilson_is_as_another_library_has_it():
    for count, of in ((0, 7), (3, 12), (11, 12), (500, 1000)):
        theirs = stats().binomtest(count, of).proportion_ci(0.95, "wilson")
        assert wilson(count, of) == pytest.approx((theirs.low, theirs.high), abs=1e-9)


def test_holm_multiplies_the_smallest_by_all_and_never_falls():
    assert holm([0.01, 0.04, 0.03]) == pytest.approx([0.03, 0.06, 0.06])
    assert holm([0.5, 0.9]) == [1.0, 1.0] and holm([]) == []


@examples(30)
@given(st.lists(st.floats(0, 1), min_size=1, max_size=12))
def test_holm_is_never_laxer_than_control_of_the_share_of_false_alarms(values):
    laxer = stats().false_discovery_control(values)
    assert all(own >= other - 1e-12 for own, other in zip(holm(values), laxer, strict=True))


def test_tests_that_can_show_nothing_are_not_paid_for():
    layout, solder = Fourfold(6, 0, 0, 6), Fourfold(1, 5, 0, 6)
    assert least_p(solder) == 1.0 and can_tell([least_p(solder)]) == [False]
    alone, *beside = corrected([layout, *[solder] * 40])
    assert alone == fisher(layout) and set(beside) == {1.0}
    assert corrected([layout, layout])[0] == 2 * fisher(layout)


def test_by_lot_alone_a_batch_has_no_finding_in_nineteen_of_twenty():
    """Forty items of which each board has a fifth, two groups of six: nothing goes with them."""
    lot, alarms = random.Random(5), 0
    for _ in range(300):
        tables = []
        for _ in range(40):
            first, second = (sum(lot.random() < 0.2 for _ in range(6)) for _ in range(2))
            tables.append(Fourfold(first, 6 - first, second, 6 - second))
        alarms += min(corrected(tables)) <= ALPHA
    assert alarms <= 300 * ALPHA
