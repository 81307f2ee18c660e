"""What steps of each kind say of themselves."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from helpers.bench import look, plan, screen_of
from helpers.bench_plan import press, step
from termprobe.plan.model import expected_of


@pytest.mark.parametrize(
    "fields, limits",
    [
        ({"low": 4.75, "high": 5.25, "unit": "V"}, "5 V \u00b1 5 %"),
        ({"low": 3.0, "unit": "V"}, "at least 3 V"),
        ({"high": 0.05, "unit": "V"}, "at most 0.05 V"),
        ({"low": 1.0, "high": 2.0}, "1 to 2"),
        ({"low": 0.0}, "at least 0"),
        ({"unit": "V"}, ""),
    ],
)
def test_limits_in_words(fields, limits):
    assert step("m", "s", "measure", **fields).limits == limits


@given(st.floats(-100, 100), st.none() | st.floats(-9, 9), st.none() | st.floats(-9, 9))
def test_a_reading_is_allowed_where_no_limit_forbids_it(value, low, high):
    rail = step("m", "s", "measure", low=low, high=high)
    is_too_low = low is not None and value < low
    is_too_high = high is not None and value > high
    assert rail.allows(value) is not (is_too_low or is_too_high)
    assert all(rail.allows(limit) for limit in (low, high) if low == high and limit is not None)


@pytest.mark.parametrize(
    "word, typed",
    [("OK", b"OK\r"), ("OK\r", b"OK\r"), ("OK\r\r", b"OK\r"), ("\u20ac", b"?\r")],
)
def test_a_word_is_typed_with_one_return(word, typed):
    assert step("t", "s", "typed-back", word=word).typed == typed


def test_a_look_is_covered_once_all_looks_named_have_passed():
    covered = look("c", covered_by=("a", "b"))
    assert covered.covering({"a", "b", "d"}) == ("a", "b") and covered.is_covered({"a", "b"})
    assert covered.covering({"b", "d"}) == () and not covered.is_covered({"b", "d"})
    assert not look("d").is_covered({"a", "b"})
    assert not step("q", "s", "ask").is_covered({"a", "b", "q"})


def test_a_screen_is_expected_of_what_shows_one():
    screen = screen_of("A")
    for kind, fields in (("look", {}), ("ask", {}), ("typed-back", {"word": "A"})):
        assert expected_of(step("a", "s", kind, expected=screen, **fields)) is screen
    assert expected_of(step("a", "s", "ask")) is None
    assert expected_of(step("a", "s", "reply", reply=b"ok")) is None


def test_a_press_is_told_in_one_line():
    asked = press("press/1+shift", asked='"1 !" with SHIFT', code=b"!")
    assert asked.title == '"1 !" with SHIFT sends "!"'


def test_steps_are_found_by_id_and_by_stage():
    made = plan(look("a"), look("b", stage="more"), look("c"))
    assert made.step("b").id == "b" and made.index == {"a": 0, "b": 1, "c": 2}
    assert [step.id for step in made.of_stage("looks")] == ["a", "c"]
    assert made.of_stage("nowhere") == ()
    with pytest.raises(KeyError):
        made.step("d")


def test_the_bytes_of_a_step_are_those_of_its_groups():
    assert look("a", "HELLO").data == b"\x1aHELLO"
