"""How well predictions fit answers: by worked numbers, and by what must be better than what."""

import math

import pytest

from termprobe.diagnosis.answers import LookAnswer
from termprobe.diagnosis.error_rates import ErrorRates
from termprobe.diagnosis.eye_fits import NOT_KNOWN
from termprobe.diagnosis.fits import (
    NEVER_DIFFERS,
    SeenBothWays,
    fit_of_reply,
    fit_of_screen,
    fit_of_sights,
    fit_of_typed,
    fit_of_word,
)
from termprobe.diagnosis.key_ranking import probabilities
from termprobe.diagnosis.replay import Replayed
from termprobe.diagnosis.shown import AS_WANTED, Sight, Sought

RATES = ErrorRates()
WANTED = Sought(b"AAAABBBBCCCC", (0, 0), 0)
PART = Sight(4, False, False, "some")


def answer(has_passed=False, **fields):
    return LookAnswer("step", has_passed, WANTED, 4, **fields)


def shown(codes, **fields):
    return Replayed(codes, (0, 0), 0, b"", **fields)


def likelihood(fit):
    return math.exp(fit.log_likelihood)


def test_eyes_say_what_is_predicted_but_for_their_misses_and_false_alarms():
    always = SeenBothWays(PART, PART)
    miss = RATES.miss(PART, len(WANTED.codes))
    assert likelihood(fit_of_sights(answer(), always, RATES)) == pytest.approx(1 - miss)
    assert likelihood(fit_of_sights(answer(True), always, RATES)) == pytest.approx(miss)
    assert likelihood(fit_of_sights(answer(), NEVER_DIFFERS, RATES)) == pytest.approx(0.02)
    assert likelihood(fit_of_sights(answer(True), NEVER_DIFFERS, RATES)) == pytest.approx(0.98)


def test_bayes_by_the_worked_example():
    """Four equal faults, two of which predict that it differs; it does. Miss 0.11, false 0.02."""
    rates = ErrorRates(miss_whole=0.11)
    fits = [fit_of_sights(answer(), SeenBothWays(PART, PART), rates)] * 2
    fits += [fit_of_sights(answer(), NEVER_DIFFERS, rates)] * 2
    found = probabilities([fit.log_likelihood for fit in fits])
    assert [round(one, 4) for one in found] == [0.4890, 0.4890, 0.0110, 0.0110]


def test_what_depends_on_what_was_sent_before_counts_half():
    fit = fit_of_sights(answer(), SeenBothWays(PART, AS_WANTED), RATES)
    miss = RATES.miss(PART, len(WANTED.codes))
    assert likelihood(fit) == pytest.approx((1 - miss + 0.02) / 2) and fit.is_as_predicted


def test_a_screen_that_was_read_is_as_predicted_or_not():
    read = answer(codes=b"AAAAbBBBCCCC")
    exact = fit_of_screen(read, shown(b"AAAAbBBBCCCC"), RATES)
    near = fit_of_screen(read, shown(b"AAAAbbBBCCCC"), RATES)
    far = fit_of_screen(read, shown(b"zzzzzzzzzzzz"), RATES)
    assert exact.is_as_predicted and not near.is_as_predicted and not far.is_as_predicted
    assert exact.log_likelihood > near.log_likelihood > far.log_likelihood > -math.inf


def test_cells_of_which_nothing_is_predicted_do_not_count():
    read = answer(codes=b"AAAABBBBxyzx")
    unknown = shown(b"AAAABBBBCCCC", unknown=frozenset(range(8, 12)))
    assert fit_of_screen(read, unknown, RATES).is_as_predicted
    right = answer(True, codes=WANTED.codes)
    others = shown(b"AAAABBBBxyzx", unknown=frozenset(range(8, 12)))
    assert not fit_of_screen(right, others, RATES).is_as_predicted


def test_marks_are_a_part_of_what_differs():
    screen = shown(b"AAAAbbbbCCCC")
    some = fit_of_screen(answer(marks={4: None, 5: None}), screen, RATES)
    wrong_place = fit_of_screen(answer(marks={0: None, 1: None}), screen, RATES)
    assert some.is_as_predicted and not wrong_place.is_as_predicted
    assert some.log_likelihood > wrong_place.log_likelihood


def test_a_row_that_is_marked_whole_is_one_mark():
    screen = shown(b"AAAAbBBBCCCC")
    row = fit_of_screen(answer(marks=dict.fromkeys(range(4, 8))), screen, RATES)
    column = fit_of_screen(answer(marks=dict.fromkeys((0, 4, 8))), screen, RATES)
    assert row.is_as_predicted and column.is_as_predicted


def test_a_character_that_is_told_must_be_the_one_predicted():
    screen = shown(b"AAAAbBBBCCCC")
    right = fit_of_screen(answer(marks={4: ord("b")}), screen, RATES)
    wrong = fit_of_screen(answer(marks={4: ord("q")}), screen, RATES)
    assert right.is_as_predicted and not wrong.is_as_predicted
    assert right.log_likelihood > wrong.log_likelihood


def test_a_slip_of_the_hand_costs_and_two_cost_more():
    fits = [fit_of_typed(came, b"HELLO", RATES) for came in (b"HELLO", b"HELPO", b"HEPPO")]
    costs = [fit.log_likelihood for fit in fits]
    assert costs == sorted(costs, reverse=True) and len(set(costs)) == 3
    assert [fit.is_as_predicted for fit in fits] == [True, False, False]


def test_a_word_may_be_typed_unread_since_it_is_asked_for():
    asked, seen = b"#.4FY\r", b"#.4DY\r"
    assert fit_of_word(asked, seen, asked, RATES).is_as_predicted
    assert fit_of_word(seen, seen, asked, RATES).is_as_predicted
    assert not fit_of_word(b"#.4QY\r", seen, asked, RATES).is_as_predicted


def test_a_reply_is_right_or_not():
    assert fit_of_reply(b"OK", b"OK", RATES).is_as_predicted
    assert fit_of_reply(b"OK", b"", RATES).log_likelihood < -10


def test_a_look_sent_to_itself_says_nothing_of_causes_that_let_earlier_screens_be_seen():
    """It stands on the screen already: what was wrong with it may be right then."""
    other = PART._replace(picture="other")
    passed_again = answer(True, before=(answer(),))
    of_open, of_certain = (
        likelihood(fit_of_sights(passed_again, SeenBothWays(PART, sight), RATES))
        for sight in (other, PART)
    )
    seen = 1 - RATES.miss(PART, len(WANTED.codes))
    assert of_open == pytest.approx(seen * (1 - RATES.same_again) * NOT_KNOWN)
    assert of_certain < of_open / 5
