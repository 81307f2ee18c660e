"""What boards show of the texts of a symptom, and how well that fits."""

import pytest

from helpers.scripts import SINGLE
from termprobe.board.board import Board
from termprobe.diagnosis.area import readings_of
from termprobe.diagnosis.blank_board import BlankBoards
from termprobe.diagnosis.error_rates import USUAL_RATES
from termprobe.diagnosis.symptom import (
    Stagehand,
    Symptom,
    TextSymptom,
    fit_of_area,
    fit_of_text,
    slips_in,
)


def glimpse(text, *faults, where=None):
    area = ()
    if where is not None:
        area = meant(where)
    symptom = Symptom((TextSymptom(text, text),), area)
    wiring = Board(SINGLE, faults).wiring
    boards = BlankBoards(SINGLE)
    hand = Stagehand(SINGLE, symptom, boards.wired(Board(SINGLE).wiring))
    return hand.glimpse(boards.wired(wiring))


def meant(where):
    """Return what is meant most probably, as the only reading."""
    return readings_of(where, 24, 80)[:1]


def test_a_good_board_shows_each_text_in_each_row():
    assert glimpse(b"HELLO").texts == ((b"HELLO",) * 4,)
    assert glimpse(b"ABC\b-").texts == ((b"AB-",) * 4,)


def test_a_bank_is_every_other_row():
    (rows,) = glimpse(b"AA", "bank-1-data/stuck/1/1").texts
    assert rows == (b"AA", b"CC", b"AA", b"CC")
    (odd,) = glimpse(b"AA", "bank-1-data/stuck/1/1", where="odd rows").texts
    assert odd == (b"CC",) * 4


def test_where_it_differs_is_rows_and_columns():
    found = glimpse(b"AB", "bank-1-data/stuck/1/1", where="odd rows")
    assert found.differing.rows == frozenset(range(1, 24, 2))
    assert len(found.differing.columns) >= 79
    assert fit_of_area(meant("odd rows"), found).is_as_predicted
    assert not fit_of_area(meant("even rows"), found).is_as_predicted
    either = fit_of_area(readings_of("every other row", 24, 80), found)
    assert either.is_as_predicted and either.log_likelihood == pytest.approx(-0.693, abs=0.01)


def test_where_nothing_differs_but_the_text_itself_that_is_where_it_was_seen():
    found = glimpse(b"AAA\r\nBBB", "scroll/dead", where="bottom row")
    assert not found.differing.rows and found.beside[0].rows == {22, 23}
    assert fit_of_area(meant("bottom row"), found).is_as_predicted
    assert not fit_of_area(meant("top row"), found).is_as_predicted


def test_the_screen_is_blank_and_the_cursor_in_its_place_whatever_is_dead():
    assert glimpse(b"A\x1aB", "decoder/dead/clear").texts == ((b"AB",) * 4,)
    assert glimpse(b"A\x1aB").texts == ((b"B",) * 4,)


def test_a_text_that_is_seen_in_half_of_the_rows_is_half_as_likely():
    text = TextSymptom(b"AA", b"CC")
    whole = fit_of_text(text, (b"CC", b"CC"), USUAL_RATES)
    half = fit_of_text(text, (b"CC", b"zzzzzzzz"), USUAL_RATES)
    assert whole.log_likelihood - half.log_likelihood == pytest.approx(0.693, abs=0.01)
    assert slips_in(text, (b"CC", b"CA", b"AA")) == [0, 1, 2]


def test_who_tells_of_rows_leaves_open_in_which_columns():
    found = glimpse(b"abcdefghijklmnopqrst", "bank-0-address/bridged/0-2/high", where="even rows")
    assert len(found.differing.columns) < 70
    assert fit_of_area(meant("even rows"), found).is_as_predicted
    assert not fit_of_area(meant("even rows, left half"), found).is_as_predicted
    assert not fit_of_area(meant("odd rows"), found).is_as_predicted


def test_what_stands_in_another_row_is_seen_as_well():
    assert glimpse(b"ABC\nd", "decoder/swapped/down-up").texts[0][1:] == (b"   d\nABC",) * 3
    assert glimpse(b"AA\r\nBB\x1a", "clear/bank-1-skipped").texts == ((b"BB", b"AA") * 2,)


def test_codes_without_a_character_are_no_ends_of_rows():
    assert glimpse(b"AB\rc", "decoder/also-written/return").texts == ((b"cB\r",) * 4,)
    assert b"AB\x00" in glimpse(b"AB\ncd", "decoder/also-written/down").texts[0][0]
