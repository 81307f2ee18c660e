"""How a choice out of several pictures weighs."""

import math

import pytest

from termprobe.diagnosis.error_rates import USUAL_RATES, ErrorRates
from termprobe.diagnosis.picked import Picked

OFFERED = ("aa", "bb", "cc")
EACH = [Picked(picture, OFFERED) for picture in ("", *OFFERED)]


@pytest.mark.parametrize("seen", ["aa", "bb", "not offered", ""])
def test_the_choices_that_can_be_made_share_all_of_the_probability(seen):
    shares = [math.exp(one.log_likelihood(seen, USUAL_RATES)) for one in EACH]
    assert sum(shares) == pytest.approx(1)


def test_the_picture_that_is_seen_is_chosen_but_for_slips():
    rates = ErrorRates(wrong_picture=0.3)
    chosen = Picked("bb", OFFERED)
    assert chosen.is_of("bb") and not chosen.is_of("aa")
    assert math.exp(chosen.log_likelihood("bb", rates)) == pytest.approx(0.7)
    assert math.exp(chosen.log_likelihood("aa", rates)) == pytest.approx(0.1)


def test_none_of_them_speaks_for_what_was_not_offered():
    none = Picked("", OFFERED)
    assert none.is_of("dd") and not none.is_of("cc")
    assert none.log_likelihood("dd", USUAL_RATES) > none.log_likelihood("cc", USUAL_RATES) + 3
