"""The estimate of how long a plan takes, against the keystroke-level model."""

import pytest

from helpers.bench_plan import step as made_step
from termprobe.plan.effort import builder_s, effort, pressing_s, sending_s, step_ms
from termprobe.plan.model import Group


def step(kind, step_id="a", **fields):
    """Return a step of `kind` that sends 960 characters and pauses for half a second."""
    return made_step(step_id, "s", kind, groups=(Group(b"x" * 960, "x", 0.5),), **fields)


def cost(*steps):
    return effort(steps, 1 / 960)


def test_looking_takes_what_the_keystroke_level_model_says():
    """Card, Moran and Newell: a decision 1.35 s, a key 0.28 s; 0.23 s a rest of the eye.

    Regular screen 2.55 s, 24 rows 8.5 s; a word typed back about 4.1 s: own estimates.
    """
    assert cost(step("look")).looking_s == pytest.approx(2.55)
    assert cost(step("look", glances=24)).looking_s == pytest.approx(8.5)
    assert builder_s(step("ask")) == pytest.approx(2.55)
    assert builder_s(step("press")) == pytest.approx(0.5)
    assert builder_s(step("typed-back", word="#.4FY")) == pytest.approx(4.13)


def test_sending_takes_its_characters_and_its_pauses():
    assert sending_s(step("look"), 1 / 960) == pytest.approx(1.5)
    assert cost(step("look"), step("ask", "b")).sending_s == pytest.approx(3)


def test_each_answer_is_a_press_and_each_character_typed_back():
    assert cost(step("typed-back", word="#.4FY")).presses == 6
    assert cost(step("reply")).presses == 0
    assert cost(step("press"), step("look", "b")).presses == 2


@pytest.mark.parametrize(
    "kind, fields",
    [("reply", {}), ("measure", {}), ("switch", {"option": "echo", "position": "on"})],
)
def test_bench_work_and_what_nobody_is_asked_for_takes_no_time_at_the_screen(kind, fields):
    assert builder_s(step(kind, **fields)) == 0


def test_what_is_not_fitted_or_covered_costs_nothing():
    assert cost(step("look", not_fitted="no")) == cost()
    assert cost(step("look", not_fitted="no")).sending_s == 0
    shown, covered = step("look"), step("look", "b", covered_by=("a",))
    assert cost(shown, covered) == cost(shown)
    missing = step("look", not_fitted="no")
    assert cost(missing, covered).looks == 1
    chained = step("look", "c", covered_by=("b",))
    assert cost(shown, covered, chained).looks == 2, "what is covered itself covers nothing"


def test_walking_over_keys_and_typing_back_take_time_of_their_own():
    steps = [step("press"), step("typed-back", "b", word="#.4FY"), step("look", "c")]
    assert pressing_s(steps) == pytest.approx(0.5 + 4.13)
    assert pressing_s([step("press", not_fitted="no such key")]) == 0


def test_what_a_step_costs_is_whole_milliseconds_and_never_nothing():
    assert step_ms(step("look"), 1 / 960) == 1500 + 2550
    assert step_ms(made_step("a", "s", "measure"), 1 / 960) == 1
