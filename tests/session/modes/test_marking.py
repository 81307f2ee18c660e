"""What differs is marked on the screen."""

from helpers.bench_state import after, asked_by, state
from termprobe.terminal.screen import UNKNOWN_CHARACTER

MADE = after(state(), "n")


def test_the_marking_cursor_stays_on_the_screen():
    assert after(MADE, "up", "left").cursor == (0, 0)
    assert after(MADE, "pagedown", "end").cursor == (23, 79)
    assert after(MADE, "down", "right").cursor == (1, 1)


def test_cells_rows_and_columns_are_marked_and_all_marks_taken_away():
    assert after(MADE, "space").marks == {(0, 0): UNKNOWN_CHARACTER}
    assert len(after(MADE, "r").marks) == 80 and len(after(MADE, "r", "c").marks) == 80 + 23
    assert after(MADE, "r", "z").marks == {}


def test_what_is_seen_is_typed_from_the_cursor_on():
    made = after(MADE, "t", *"HA", "enter")
    assert made.marks == {(0, 1): "A"} and made.cursor == (0, 2)
    made = after(made, "end", "t", "x", "enter")
    assert made.cursor == (0, 79) and made.marks[0, 79] == "x"


def test_what_is_marked_is_recorded_with_the_remark():
    made = after(MADE, "space", "+", *"dim", "enter")
    (record,) = asked_by(made, "enter")
    assert (
        record.answer.seen[0].startswith(UNKNOWN_CHARACTER + "ELLO") and record.answer.note == "dim"
    )
    assert asked_by(MADE, "enter")[0].answer.seen is None


def test_leaving_records_nothing():
    made = after(MADE, "space", "c-g")
    assert (made.mode, made.marks) == ("look", {}) and asked_by(MADE, "c-g") == ()
