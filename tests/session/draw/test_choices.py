"""The list of predicted wrong screens in its room."""

import dataclasses

from helpers.bench_state import rows_of, state
from termprobe.session.draw.choices import choice_rows
from termprobe.session.mode import View
from termprobe.session.mode_table import MODES


def listed(columns, rows, sentences):
    made = state(mode="choosing")
    first = made.predictions.found[0]
    found = tuple(first._replace(sentence=one, probability=0.1) for one in sentences)
    made = dataclasses.replace(made, predictions=made.predictions._replace(found=found), picked=1)
    return rows_of(choice_rows(View(made, columns, rows, MODES["look"])))


def test_each_picture_has_the_number_of_its_key_and_none_has_0():
    heading, *rows = listed(40, 20, ["row 3 is blank", "row 4 is blank"])
    assert heading == "Predicted; 20 % that it is one of these"
    assert rows == [" 1  row 3 is blank", "►2  row 4 is blank", " 0  none of these"]


def test_short_sentences_stand_in_two_columns():
    rows = listed(80, 20, [f"row {number} is blank" for number in range(8)])
    assert len(rows) == 6 and "none of these" in rows[4]
    assert rows[1].split("  ")[1] == "row 0 is blank" and "row 5 is blank" in rows[1]


def test_long_sentences_are_whole_where_there_is_room_and_cut_where_there_is_none():
    long = "every character one code too high in rows 3, 5 and 9, in columns 1 to 70"
    assert "70" in " ".join(listed(40, 20, [long] * 4))
    rows = listed(40, 6, [long] * 4)
    assert len(rows) == 6 and rows[1].endswith("…") and "none" in rows[5]
    assert max(map(len, rows)) <= 40


def test_the_one_that_is_shown_is_listed_where_few_have_room():
    made = state(mode="choosing")
    first = made.predictions.found[0]
    found = tuple(first._replace(sentence=f"{number} {'x' * 40}") for number in range(8))
    made = dataclasses.replace(made, predictions=made.predictions._replace(found=found))

    def pointed_at(picked):
        shown = dataclasses.replace(made, picked=picked)
        rows = rows_of(choice_rows(View(shown, 40, 5, MODES["look"])))[:5]
        return [index for index, row in enumerate(rows) if row.startswith(f"►{picked + 1}")]

    assert [pointed_at(picked) for picked in (0, 3, 4, 7)] == [[1], [4], [4], [4]]


def test_nothing_is_listed_before_anything_is_predicted():
    made = dataclasses.replace(state(mode="choosing"), predictions=None)
    assert choice_rows(View(made, 80, 20, MODES["look"])) == []
