"""What a press showed: how it is read out of a journal, and how it is compared."""

import dataclasses

import pytest

from termprobe.board.keyboard_board import simulate
from termprobe.diagnosis.key_conclusion import conclude
from termprobe.diagnosis.key_outcomes import Outcome, outcomes_of
from termprobe.journal.records import Answer, Answered, Heard, TakenBack
from termprobe.link.base import Received
from termprobe.plan.presses import chord_presses, coded_presses
from termprobe.profile.load import load

TYPEWRITER = load("ecma48-24x80")


def answer(press, events):
    heard = tuple(Received(at_s, data, error) for at_s, data, error in events)
    return Answered(press, Answer("differs", data=b"", heard=Heard(9600.0, 8, heard)))


def journal(hold_s, *faults):
    """Return the records that a walk over a few keys, each held so long, leaves."""
    keyboard = simulate(TYPEWRITER, faults)
    records = []
    for press in coded_presses(TYPEWRITER):
        if press.key in "asdf":
            events = keyboard.press(press.key, frozenset(press.modifiers), hold_s=hold_s)
            heard = [(at_s, data, "") for at_s, data in events]
            records.append(answer(press.id, heard))
    return records


def test_outcomes_come_from_the_journal_without_what_was_taken_back():
    events = [(0.1, b"q", ""), (0.11, b"q", "parity")]
    records = [
        answer("press/w", events),
        TakenBack("press/w"),
        answer("press/q", events),
        Answered("look", Answer("differs")),
    ]
    assert outcomes_of(records) == {"press/q": [Outcome(b"qq", "parity")]}


def test_a_press_that_was_never_made_may_be_taken_back():
    records = [TakenBack("press/w"), answer("press/q", [(0.1, b"q", "")])]
    assert outcomes_of(records) == {"press/q": [Outcome(b"q")]}


def test_a_press_made_twice_has_two_outcomes():
    records = [answer("press/q", [(0.1, b"q", "")]), answer("press/q", [])]
    assert outcomes_of(records) == {"press/q": [Outcome(b"q"), Outcome(b"")]}


@pytest.mark.parametrize("hold_s", [0.1, 0.55, 0.6, 2.0])
def test_keys_held_until_they_repeat_speak_for_no_fault(hold_s):
    records = journal(hold_s)
    repeats = sum(len(record.answer.heard.events) for record in records) > len(records)
    assert repeats == (hold_s > 0.5)
    assert conclude(TYPEWRITER, outcomes_of(records)).is_healthy


@pytest.mark.parametrize("hold_s", [0.1, 1.0])
def test_a_key_that_bounces_and_repeats_is_still_one_that_bounces(hold_s):
    bounces = "key-matrix/key-bounces/a"
    conclusion = conclude(TYPEWRITER, outcomes_of(journal(hold_s, bounces)))
    assert conclusion.suspects[0].faults == (bounces,)


def test_another_key_s_code_after_a_pause_is_kept():
    events = [(0.0, b"a", ""), (0.6, b"a", ""), (0.667, b"s", ""), (0.733, b"a", "")]
    assert outcomes_of([answer("press/a", events)]) == {"press/a": [Outcome(b"as")]}


def test_the_order_of_codes_does_not_count_and_their_number_and_the_error_do():
    assert Outcome.of(b"qa") == Outcome.of(b"aq") != Outcome.of(b"aqq")
    assert hash(Outcome.of(b"qa")) == hash(Outcome.of(b"aq"))
    assert Outcome.of(b"q", "parity") != Outcome.of(b"q")


def test_of_keys_held_together_each_code_counts_once():
    chord, press = chord_presses(TYPEWRITER)[0], coded_presses(TYPEWRITER)[0]
    repeated = Outcome.of(b"1q1q", "parity")
    assert repeated.as_compared(chord) == Outcome.of(b"q1", "parity")
    assert repeated.as_compared(press) == repeated


def test_an_error_that_is_predicted_alone_stands_for_any_codes():
    predicted = (Outcome.of(b"q"), Outcome.error_alone("framing"), Outcome.error_alone("parity"))
    assert Outcome.of(b"x", "framing").count_in(predicted) == 1
    assert Outcome.of(b"", "overrun").count_in(predicted) == 0
    assert Outcome.of(b"q").count_in(predicted) == 1
    assert Outcome.of(b"").count_in(predicted) == 0


def test_what_is_predicted_twice_is_counted_twice():
    both = (Outcome.of(b"q", "parity"), Outcome.error_alone("parity"))
    assert Outcome.of(b"q", "parity").count_in(both) == 2


def test_an_answer_that_amends_takes_the_place_of_the_one_before():
    first = answer("press/q", [(0.1, b"q", "")])
    second = answer("press/q", [(0.1, b"q", ""), (0.11, b"q", "")])
    amended = dataclasses.replace(second, amends=True)
    assert outcomes_of([first, first, amended]) == {
        "press/q": [Outcome.of(b"q"), Outcome.of(b"qq")]
    }
