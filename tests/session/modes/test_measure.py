"""Readings are typed and judged."""

import dataclasses

import pytest

from helpers.bench_plan import full_plan
from helpers.bench_state import after, console, state
from termprobe.journal.records import AS_EXPECTED, DIFFERS
from termprobe.session.modes.measure import READING, judgement
from termprobe.session.react.typed_lines import accept, open_line, prompt


def measured(typed):
    return accept(open_line(state("supply-5v", "measure"), READING, typed))


@pytest.mark.parametrize(
    "typed, value, word",
    [
        ("5.04", 5.04, AS_EXPECTED),
        ("5040 mV", 5.04, AS_EXPECTED),
        ("4.75V", 4.75, AS_EXPECTED),
        ("5.26", 5.26, DIFFERS),
        ("-5", -5.0, DIFFERS),
    ],
)
def test_a_reading_is_taken_with_its_unit_and_judged(typed, value, word):
    made, (record,) = measured(typed)
    assert (record.answer.value, record.answer.word) == (value, word)
    assert ("OUTSIDE" in made.notice) == (word == DIFFERS)


@pytest.mark.parametrize("typed", ["", "five", "5 A", "5 V V"])
def test_what_is_no_reading_is_refused_with_a_reason_and_stays_typed(typed):
    made, requests = measured(typed)
    assert requests == () and "must be" in made.notice
    assert (made.mode, made.text) == ("typing", typed)


def test_limits_stand_beside_the_reading_and_judge_it_while_it_is_typed():
    made = after(state("supply-5v", "measure"), *"5.3")
    shown = console(made, 80, 24)
    assert "It must read 4.75 to 5.25 V, that is 5 V \u00b1 5 %." in shown
    assert "x 5.3 V is OUTSIDE the limits, 5 V \u00b1 5 %" in shown
    assert "Switch off at once if: the regulator is too hot to touch" in shown
    assert "Mains and the tube" in shown
    assert "+ 5 V is within" in console(after(made, "backspace", "backspace"), 80, 24)


def test_a_digit_opens_the_line_and_a_letter_does_not():
    made = state("supply-5v", "measure")
    assert after(made, "-").text == "-" and after(made, "x").mode == "measure"
    assert prompt(after(made, "enter")) == "Reading: 5 V \u00b1 5 %"


def test_without_limits_a_reading_is_noted():
    free = dataclasses.replace(full_plan().step("supply-5v"), low=None, high=None)
    answer, sentence = judgement(free, 0.5)
    assert (answer.word, answer.value, sentence) == (AS_EXPECTED, 0.5, "0.5 V, noted")
