"""In which part a screen differs is told by yes and no, a key each."""

import dataclasses

from helpers.bench_state import after, after_event, asked_by, console, state
from helpers.predicted import predictions_of
from termprobe.journal.records import DIFFERS
from termprobe.session.messages import Foreseen
from termprobe.terminal.predicted import RegionAsked

ROWS = RegionAsked("odd rows", if_wrong=RegionAsked("top half"))
PREDICTED = predictions_of(state().step)._replace(region=ROWS)
KNOWN = after_event(state(), Foreseen(PREDICTED))
NARROWING = after(KNOWN, "n", "n")


def test_who_sees_none_of_the_pictures_is_asked_for_the_part():
    assert NARROWING.mode == "narrowing"
    assert "Is anything wrong in the odd rows, counted from 0?" in console(NARROWING, 80, 24)
    assert "Is anything wrong in the top half?" in console(after(NARROWING, "y"), 80, 24)


def test_a_key_each_tells_all_and_the_last_one_records():
    assert asked_by(NARROWING, "y") == ()
    (record,) = asked_by(after(NARROWING, "y"), "n")
    assert record.answer.word == DIFFERS and record.answer.offered == PREDICTED.offered
    assert record.answer.regions == (("odd rows", True), ("top half", False))
    (record,) = asked_by(NARROWING, "n")
    assert record.answer.regions == (("odd rows", False),)


def test_enter_records_what_was_said_so_far_and_leaving_nothing():
    (record,) = asked_by(after(NARROWING, "y"), "enter")
    assert record.answer.regions == (("odd rows", True),)
    left = after(NARROWING, "y", "escape")
    assert (left.mode, left.regions, left.offered) == ("look", (), ())


def test_marking_leads_there_and_its_marks_are_kept():
    marking = after(KNOWN, "n", "0", "space")
    assert marking.mode == "marking" and after(marking, "a").mode == "narrowing"
    (record,) = asked_by(after(marking, "a"), "n")
    assert record.answer.seen is not None and record.answer.regions == (("odd rows", False),)


def test_nothing_is_asked_where_it_would_tell_nothing():
    plain = after_event(state(), Foreseen(predictions_of(state().step)))
    assert asked_by(after(plain, "n"), "n") and after(plain, "n", "0", "a").mode == "marking"
    assert after(dataclasses.replace(KNOWN, predictions=None), "n", "a").mode == "marking"
