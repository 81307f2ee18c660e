"""How probable each class is: worked figures, and what slips do to it."""

import math

import pytest

from helpers.key_walks import walked
from termprobe.diagnosis.key_hypothesis import HEALTHY
from termprobe.diagnosis.key_outcomes import Outcome
from termprobe.diagnosis.key_ranking import ANYTHING, SLIP, ranked
from termprobe.diagnosis.key_table import table_of
from termprobe.profile.load import load

PROFILE = load("singlebyte-24x80")


def names(one):
    return [member.name for member in one.members]


def class_of(found, name):
    """Return the class in which the hypothesis `name` is."""
    return next(one for one in found if name in names(one))


def weight(one):
    return sum(member.weight for member in one.members)


def test_probabilities_add_up_and_the_best_stands_first():
    found = ranked(table_of(PROFILE), walked(PROFILE, "key-matrix/row-open/3"))
    shares = [one.probability for one in found]
    assert math.isclose(sum(shares), 1) and shares == sorted(shares, reverse=True)
    assert found[0].members[0].name == "key-matrix/row-open/3"


def test_two_classes_stand_to_each_other_as_their_weights_and_as_what_they_predict():
    """That nothing comes of a press is what a silent line predicts; else it is a slip."""
    found = ranked(table_of(PROFILE), {"press/q": [Outcome.of(b"")]})
    silent, healthy = class_of(found, "host/silent"), class_of(found, HEALTHY)
    as_predicted, slipped = 1 - SLIP + SLIP * ANYTHING, SLIP * ANYTHING
    # Worked by hand of 3 slips in 100, each to one of 200 outcomes: 0.97015 / 0.00015.
    assert as_predicted / slipped == pytest.approx(6467.667, rel=1e-6)
    expected = weight(silent) * as_predicted / (weight(healthy) * slipped)
    assert silent.probability / healthy.probability == pytest.approx(expected)


def test_of_a_key_that_sends_at_every_second_press_each_outcome_is_as_likely():
    dead, flaky = "key-matrix/key-dead/q", "key-matrix/key-flaky/q"
    silent, sent = Outcome.of(b""), Outcome.of(b"q")
    never = ranked(table_of(PROFILE), {"press/q": [silent] * 3})
    now_and_then = ranked(table_of(PROFILE), {"press/q": [silent, sent, silent]})
    assert class_of(never, dead).probability > class_of(never, flaky).probability
    assert class_of(now_and_then, dead).probability < class_of(now_and_then, flaky).probability
