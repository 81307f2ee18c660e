"""What boards show of the texts of a symptom, and how well that fits."""

import pytest

from helpers.scripts import SINGLE
from termprobe.board.board import Board
from termprobe.diagnosis.area import area_of
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
    area = None
    if where is not None:
        area = area_of(where, 24, 80)
    symptom = Symptom((TextSymptom(text, text),), area)
    return Stagehand(SINGLE, symptom).glimpse(Board(SINGLE, faults))


def test_a_good_board_shows_each_text_in_each_row():
    assert glimpse(b"HELLO").texts == ((b"HELLO",) * 4,)
    assert glimpse(b"ABC\b-").texts == ((b"AB-",) * 4,)


def test_a_bank_is_every_other_row():
    (rows,) = glimpse(b"AA", "bank-1-data/stuck/1/1").texts
    assert rows == (b"AA", b"CC", b"AA", b"CC")
    (odd,) = glimpse(b"AA", "bank-1-data/stuck/1/1", where="odd rows").texts
    assert odd == (b"CC",) * 4


def test_where_it_differs_is_rows_and_columns():
    found = glimpse(b"AB", "bank-1-data/stuck/1/1", where="odd rows").differing
    assert found.rows == frozenset(range(1, 24, 2)) and len(found.columns) >= 79
    assert fit_of_area(area_of("odd rows", 24, 80), found).is_as_predicted
    assert not fit_of_area(area_of("even rows", 24, 80), found).is_as_predicted


def test_a_text_that_is_seen_in_half_of_the_rows_is_half_as_likely():
    text = TextSymptom(b"AA", b"CC")
    whole = fit_of_text(text, (b"CC", b"CC"), USUAL_RATES)
    half = fit_of_text(text, (b"CC", b"zzzzzzzz"), USUAL_RATES)
    assert whole.log_likelihood - half.log_likelihood == pytest.approx(0.693, abs=0.01)
    assert slips_in(text, (b"CC", b"CA", b"AA")) == [0, 1, 2]
