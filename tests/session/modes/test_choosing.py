"""Which of the predicted wrong screens is seen is said with one key."""

import pytest

from helpers.bench_state import after, after_event, asked_by, console, state
from helpers.predicted import predictions_of
from termprobe.journal.records import DIFFERS, EYES
from termprobe.session.messages import Foreseen

KNOWN = after_event(state(), Foreseen(predictions_of(state().step)))
CHOOSING = after(KNOWN, "n")
OFFERED = ("aa", "bb", "cc")


def test_what_is_predicted_is_offered_once_something_differs():
    assert CHOOSING.mode == "choosing" and after(state(), "n").mode == "marking"


def test_two_keys_tell_all_of_a_look_that_fails():
    (record,) = asked_by(CHOOSING, "2")
    answer, chosen = record.answer, CHOOSING.predictions.found[1]
    assert (answer.word, answer.strength) == (DIFFERS, EYES)
    assert (answer.chosen, answer.offered) == ("bb", OFFERED)
    assert (answer.seen, answer.cursor, answer.bells) == (
        chosen.screen.rows,
        chosen.screen.cursor,
        chosen.screen.bells,
    )
    (record,) = asked_by(CHOOSING, "n")
    assert (record.answer.chosen, record.answer.offered) == ("", OFFERED)
    assert record.answer.seen is None


def test_a_number_without_a_picture_does_nothing():
    made = after(CHOOSING, "4")
    assert made.mode == "choosing" and "there are 3" in made.notice and not asked_by(CHOOSING, "4")


def test_the_picture_shown_is_chosen_by_enter():
    assert after(CHOOSING, "up").picked == 0 and after(CHOOSING, *["down"] * 9).picked == 2
    (record,) = asked_by(after(CHOOSING, "down"), "enter")
    assert record.answer.chosen == "bb"


def test_where_it_is_none_of_them_it_is_marked_as_ever_and_that_is_recorded():
    marking = after(CHOOSING, "0")
    assert marking.mode == "marking"
    (record,) = asked_by(after(marking, "space"), "enter")
    assert record.answer.offered == OFFERED and record.answer.chosen == ""
    assert record.answer.seen is not None
    left = after(marking, "c-g")
    assert left.mode == "look" and not left.offered


def test_leaving_records_nothing():
    made = after(CHOOSING, "down", "escape")
    assert (made.mode, made.picked) == ("look", 0) and asked_by(CHOOSING, "escape") == ()


def test_marking_leads_to_what_came_too_late():
    marking = after(state(), "n")
    assert after(marking, "p").mode == "marking"
    late = after_event(marking, Foreseen(predictions_of(marking.step)))
    assert late.mode == "marking" and after(late, "p").mode == "choosing"


@pytest.mark.parametrize("columns, rows", [(80, 24), (100, 32), (200, 60)])
def test_the_list_is_whole_and_the_picture_marked_in_words(columns, rows):
    shown = console(after(CHOOSING, "down"), columns, rows)
    assert "Predicted; 88 % that it is one of these" in shown
    for number, one in enumerate(CHOOSING.predictions.found, 1):
        assert f"{number}  {one.sentence}" in shown
    assert "0  none of these" in shown and "►2" in shown
    assert "picture 2; unlike in 5 cells in 1 row" in shown and "IFMMP" in shown
    assert "1-8 this is seen" in shown and "0 none" in shown
    turned = console(after(CHOOSING, "down", "v"), columns, rows)
    assert "this must be seen" in turned and "0  none of these" in turned


def test_what_is_alike_but_for_cursor_and_bell_is_told_apart_in_the_caption():
    shown = console(after(CHOOSING, "down", "down"), 80, 24)
    assert "cursor row 2, column 3; bells: 1, not 0" in shown


def test_rows_that_differ_are_shown_before_all_others():
    found = CHOOSING.predictions.found
    far = found[1]._replace(screen=found[2].screen)
    rows = list(far.screen.rows)
    rows[20] = "XYZ".ljust(80)
    far = far._replace(screen=type(far.screen)(tuple(rows), (0, 0)))
    event = Foreseen(CHOOSING.predictions._replace(found=(far,)))
    assert "XYZ" in console(after(after_event(state(), event), "n"), 80, 24)
