"""The screens that are shown in turn: each says what it is, in words and by its frame."""

import pytest

from helpers.bench_state import after, console, state
from termprobe.session.draw.pictures import difference_picture, picture_in_sight, pictures_in_turn
from termprobe.terminal.screen import Screen

HALLO = Screen(("HALLO".ljust(80),) + (" " * 80,) * 23, (0, 6))
PRACTICE = state(is_practice=True, board_screen=HALLO)
MARKED = after(state(mode="look"), "n", "right", "t", *"A", "enter")
SIZES = [(80, 24), (100, 32), (60, 20)]


def shown_in_turn(made, columns, rows):
    """Return the words of the console as it is, and after each of three turns."""
    turned = [after(made, *"v" * times) for times in range(4)]
    return [" ".join(console(one, columns, rows).split()) for one in turned]


@pytest.mark.parametrize("columns, rows", SIZES)
def test_in_practice_caption_and_frame_tell_the_three_screens_apart(columns, rows):
    shown = shown_in_turn(PRACTICE, columns, rows)
    assert "this must be seen" in shown[0] and "HELLO" in shown[0]
    assert "as seen: the simulated board shows this" in shown[1]
    assert "HALLO" in shown[1] and "═" in shown[1] and "─" not in shown[1]
    assert "difference: X at row 0 column 1" in shown[2]
    assert ".X..." in shown[2] and not {"─", "═"} & set(shown[2])
    assert shown[3] == shown[0] and "─" in shown[0] and "═" not in shown[0]


@pytest.mark.parametrize("columns, rows", SIZES)
def test_marks_are_captioned_as_seen_and_turned_to_what_must_be_seen(columns, rows):
    shown = shown_in_turn(MARKED, columns, rows)
    assert "as seen: unlike at row 0 column 1" in shown[0]
    assert "HALLO" in shown[0] and "═" in shown[0]
    assert "this must be seen" in shown[1] and "─" in shown[1] and "HALLO" not in shown[1]
    assert "difference: X at row 0 column 1" in shown[2]
    assert shown[3] == shown[0]


def test_before_anything_is_marked_what_must_be_seen_is_shown():
    assert "this must be seen" in console(after(state(), "n"), 80, 24)
    assert len(pictures_in_turn(after(state(), "n"))) == 1


def test_marking_in_practice_turns_to_the_board_too():
    made = after(state(is_practice=True, board_screen=HALLO), "n", "right", "t", *"A", "enter")
    captions = [picture.caption for picture in pictures_in_turn(made)]
    starts = ["as seen: unlike", "as seen: the simulated board", "this must be", "difference: X"]
    assert [caption.startswith(start) for caption, start in zip(captions, starts, strict=True)] == [
        True
    ] * 4


def test_answering_turns_back_to_what_must_be_seen():
    made = after(PRACTICE, "v", "n")
    assert "this must be seen" in picture_in_sight(made).caption


def test_a_wide_console_shows_two_of_them_beside_each_other():
    assert "as seen" in console(PRACTICE, 165, 32)
    turned = console(after(PRACTICE, "v"), 165, 32)
    assert "as seen" in turned and "difference" in turned and "this must" not in turned
    last = console(after(PRACTICE, "v", "v"), 165, 32)
    assert "this must be seen" in last and "difference" in last and "as seen" not in last


def test_the_difference_tells_cells_and_cursor():
    one = Screen(("ab ", "cd "), (0, 0))
    picture = difference_picture(one, Screen(("aX ", "cd "), (1, 2)))
    assert picture.screen.rows == (".X ", ".. ")
    assert picture.caption == (
        "difference: X at row 0 column 1; cursor seen at row 1, column 2, not row 0, column 0"
    )
    assert difference_picture(one, one).caption == "difference: none, all cells are alike"
    unlike = difference_picture(Screen(("a" * 9,) * 9, None), Screen(("b" * 9,) * 9, None))
    assert unlike.caption == "difference: X at 81 cells in 9 rows"


def test_the_screen_alone_is_always_the_expected_one():
    made = after(PRACTICE, "g", "v")
    assert "as seen" in console(made, 80, 24), "a screen without a caption could be either"
    assert console(after(made, "v", "v"), 80, 24) == console(after(PRACTICE, "g"), 80, 24)
