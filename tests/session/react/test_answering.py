"""Answers from either keyboard, and none by mistake."""

import dataclasses

import pytest

from helpers.bench_state import after, after_event, asked_by, state
from termprobe.journal.records import AS_EXPECTED, DIFFERS, UNSURE
from termprobe.runner.time_left import LONG_LOOK_S
from termprobe.session.messages import Came, Shown
from termprobe.session.react import answering


def test_a_screen_that_came_late_is_not_answered_by_a_key_meant_for_the_one_before():
    made = after_event(state(mode="waiting"), Shown("hello", 10.0), 10.0)
    assert asked_by(made, "y", 10.1) == ()
    assert after(made, "y", now_s=10.1).notice == answering.LOOK_FIRST
    assert len(asked_by(made, "y", 10.3)) == 1


@pytest.mark.parametrize("key", ["y", "n", "u"])
def test_each_answer_waits_until_the_screen_can_have_been_looked_at(key):
    made = after_event(state(mode="waiting"), Shown("hello", 10.0), 10.0)
    early, in_time = after(made, key, now_s=10.24), after(made, key, now_s=10.25)
    assert (early.mode, early.notice) == ("look", answering.LOOK_FIRST)
    assert in_time.mode != "look" and in_time.notice != answering.LOOK_FIRST


def test_the_boards_own_keys_answer_once_they_are_wanted():
    made = state(board_keys="on", now_s=0.0)
    off = state(board_keys="off")
    assert answering.by_board_key(off, ord("y")) == (off, ())
    for code, word in ((ord("y"), AS_EXPECTED), (ord("N") | 0x80, DIFFERS)):
        _, (record,) = answering.by_board_key(made, code)
        assert (record.answer.word, record.answer.observer) == (word, "board keyboard")
    assert answering.by_board_key(made, ord("x")) == (made, ())
    early = state(board_keys="on", ready_at_s=0.0)
    assert after_event(early, Came(b"y")).notice == answering.LOOK_FIRST


def test_an_answer_adds_to_the_pace_how_long_it_took():
    made = state(looks_s=(1.0, 2.0))
    assert after(made, "u").looks_s == (1.0, 2.0, 9.0)
    assert asked_by(made, "u")[0].answer.word == UNSURE


def test_a_pause_before_an_answer_is_no_pace():
    assert after(state(looks_s=(1.0,)), "u", now_s=LONG_LOOK_S).looks_s == (1.0,)


def test_what_differs_is_marked_where_there_is_a_screen():
    made = after(state("corners"), "n")
    assert (made.mode, made.cursor) == ("marking", (0, 0))
    assert asked_by(state("lamp", "ask"), "n")[0].answer.word == DIFFERS


def test_keys_that_no_word_has_proven_are_offered_once_heard_and_proven_by_both():
    assert answering.by_board_key(state(), 0x11) == (state(), ()), "a handshake is no key"
    made, requests = answering.by_board_key(state(), ord("3"))
    assert "press y and n on it" in made.notice and requests == ()
    made, requests = answering.by_board_key(made, ord("N"))
    assert "n came from the board's keyboard" in made.notice and requests == ()
    assert answering.by_board_key(made, ord("n"))[0].board_keys == "unproven"
    made, (note,) = answering.by_board_key(made, ord("y"))
    assert made.board_keys == "on" and note.text.endswith("own keyboard: on")
    later = dataclasses.replace(made, now_s=made.now_s + 1)
    _, (record,) = answering.by_board_key(later, ord("y"))
    assert record.answer.observer == "board keyboard"
