"""A word comes back from the board's own keyboard."""

from dataclasses import replace

from helpers.bench_state import after, after_event, asked_by, console, state
from termprobe.journal.records import AS_EXPECTED, DIFFERS
from termprobe.session.messages import Came, RecordAnswer
from termprobe.session.react import hearing
from termprobe.terminal.screen import Screen

MADE = state("word", mode="typed-back")


def test_what_is_typed_on_the_board_shows_live_which_characters_matched():
    shown = console(after_event(MADE, Came(b"ax"), 1.0), 80, 24)
    assert "type    a n y RETURN" in shown and "came    a x · ·" in shown
    assert "1 of 4 right" in shown
    assert "2 too many" in console(after_event(MADE, Came(b"anyyyy"), 1.0), 80, 24)


def test_the_word_is_recorded_by_itself_once_it_has_come_right():
    _, (record,) = hearing.hear(MADE, Came(b"any\r"), 1.0)
    assert (record.answer.word, record.answer.data) == (AS_EXPECTED, b"any\r")
    assert record.answer.observer == "board keyboard"


def test_a_word_with_something_before_it_is_not_the_word():
    made = after_event(MADE, Came(b"xany\r"), 1.0)
    assert made.mode == "typed-back" and "that is not the word" in made.notice
    requests = hearing.hear(MADE, Came(b"xany\r"), 1.0)[1]
    assert not any(isinstance(request, RecordAnswer) for request in requests)


def test_another_word_is_typed_anew_or_recorded_as_it_came():
    made = after_event(MADE, Came(b"anx\r"), 1.0)
    assert "that is not the word" in made.notice
    assert after(made, "x").typed == b""
    sure = after(made, "c-w")
    assert asked_by(made, "c-w") == () and "Record that the word cannot be typed?" in console(sure)
    (record,) = asked_by(sure, "y")
    assert (record.step_id, record.answer.word) == ("word", DIFFERS)
    assert record.answer.data == b"anx\r"


def test_the_word_typed_on_this_computer_records_nothing():
    made = MADE
    for key in ("A", "n", "y", "enter") * 2:
        assert asked_by(made, key) == (), key
        made = after(made, key)
        assert made.mode == "typed-back" and "on the board's own keyboard" in made.notice


def test_a_key_that_does_not_go_on_with_the_word_does_what_it_says():
    assert after(MADE, "a", "s").mode == "typing" and after(MADE, "q").mode == "stopping"
    begun = after(MADE, "a")
    assert after(begun, "u").mode == "waiting" and after(begun, "+").mistyped == ""


def test_in_a_national_variant_keys_are_called_as_the_screen_shows_them():
    german = Screen((" " * 80,) * 24, None, variant="german")
    step = replace(MADE.step, word="[}", expected=german)
    steps = tuple(step if one.id == "word" else one for one in MADE.plan.steps)
    made = state("word", mode="typed-back", plan=replace(MADE.plan, steps=steps))
    shown = console(after_event(made, Came(b"[{"), 1.0), 80, 24)
    assert "type    Ä ü RETURN" in shown and "came    Ä ä ·" in shown
