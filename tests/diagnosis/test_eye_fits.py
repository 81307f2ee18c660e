"""How the words of eyes count: regions, and several readings of one screen, by worked numbers."""

import math

import pytest

from termprobe.diagnosis.answers import LookAnswer
from termprobe.diagnosis.error_rates import ErrorRates
from termprobe.diagnosis.eye_fits import NOT_KNOWN, over_readings, yes_or_no
from termprobe.diagnosis.picked import Picked
from termprobe.diagnosis.regions import numbers_of
from termprobe.diagnosis.shown import AS_WANTED, Sight, Sought

RATES = ErrorRates()
WANTED = Sought(b"AAAABBBBCCCCDDDD", (0, 0), 0, columns=4)
MISS = RATES.miss_whole


def sight(*words):
    numbers = numbers_of(4, 4)
    return Sight(8, False, False, "some", where=sum(1 << numbers[word] for word in words))


def answer(has_passed=False, **fields):
    return LookAnswer("step", has_passed, WANTED, 4, **fields)


def likelihood(said, shown):
    return math.exp(
        over_readings(said, RATES, lambda one, rates: yes_or_no(one, shown, rates)).log_likelihood
    )


def by_rates(said, rates):
    return yes_or_no(said, sight(), rates)


def fit(said, shown=None):
    return yes_or_no(said, shown or sight(), RATES)


def test_what_is_said_of_a_region_counts_as_an_answer_of_its_own():
    said = answer(regions=(("top half", True), ("odd rows", False)))
    as_said, neither = sight("top half"), sight()
    assert likelihood(said, as_said) == pytest.approx((1 - MISS) * (1 - MISS) * 0.98)
    assert likelihood(said, neither) == pytest.approx((1 - MISS) * 0.02 * 0.98)
    assert fit(said, as_said).regions == (True, True)
    assert fit(said, sight("odd rows")).regions == (False, False)


def test_of_a_region_that_is_not_known_nothing_is_told():
    plain = likelihood(answer(), sight())
    assert likelihood(answer(regions=(("a ring", True),)), sight()) == plain * NOT_KNOWN
    nowhere = Sight(8, False, False, "some")
    said = answer(regions=(("top half", True),))
    assert likelihood(said, nowhere) == plain * NOT_KNOWN


def test_each_word_can_be_turned_round():
    said = answer(regions=(("top half", True),))
    word, region = fit(said, sight("top half")).flipped
    assert math.exp(word) == pytest.approx(MISS)
    assert math.exp(region) == pytest.approx((1 - MISS) * MISS)
    picked = answer(picked=Picked("some", ("some", "other")))
    word, picture = fit(picked, sight()).flipped
    assert math.exp(word) == pytest.approx(MISS) and math.exp(picture) == pytest.approx(1 - MISS)
    assert fit(answer(True), AS_WANTED).flipped == (math.log(0.02),)


def test_a_second_reading_that_says_the_same_counts_for_less_than_one_that_does_not():
    same = answer(before=(answer(),))
    again = RATES.same_again
    closely = MISS * RATES.missed_again
    once_more = again + (1 - again) * (1 - closely)
    assert likelihood(same, sight()) == pytest.approx((1 - MISS) * once_more)
    other = answer(True, before=(answer(),))
    assert likelihood(other, sight()) == pytest.approx((1 - MISS) * (1 - again) * closely)


def test_three_who_look_closely_make_good_one_who_did_not_where_few_cells_differ():
    few = Sight(2, False, False, "some", where=0)
    passed, differs = answer(True), answer()

    def odds(*said):
        *before, last = said
        readings = answer(last.has_passed, before=tuple(before))
        return likelihood(readings, few) / likelihood(readings, AS_WANTED)

    assert odds(differs, passed, passed, passed) < odds(passed) * 1.2
    assert odds(passed, differs, passed, passed) < odds(passed) * 1.2
    assert odds(differs, passed) > 1


def test_most_readings_say_whether_a_look_is_as_predicted():
    def said(*passed):
        *before, last = [answer(one) for one in passed]
        readings = answer(last.has_passed, before=tuple(before))
        return over_readings(readings, RATES, by_rates).is_as_predicted

    assert said(False, True, False) and said(False, True)
    assert not said(True, False, True)
    assert over_readings(answer(before=(answer(True),)), RATES, by_rates).flipped[1] < 0
