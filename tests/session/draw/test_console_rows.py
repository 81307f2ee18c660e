"""The drawn console: never wider or higher than it is, harmless, and with what matters in sight."""

import dataclasses

import pytest
from hypothesis import given
from hypothesis import strategies as some
from prompt_toolkit.utils import get_cwidth

from helpers.bench_plan import PROFILE, full_plan
from helpers.bench_state import LINE, after, console, course, rows_of, state
from helpers.examples import examples
from termprobe.plan.compile import compile_plan
from termprobe.script.load import load as load_script
from termprobe.session.draw.console_rows import draw_console, first_shown
from termprobe.session.mode_table import MODES
from termprobe.session.react.typed_lines import NOTE
from termprobe.session.react.waveform import Loop
from termprobe.terminal.screen import Screen

KEYS = compile_plan(PROFILE, load_script("keyboard"))
STEP_OF_MODE = {
    "caution": "supply-5v",
    "setting": "half-duplex",
    "typed-back": "word",
    "measure": "supply-5v",
}
PASSING = ("typing", "help", "paused", "stopping", "lost", "list")
HALLO = Screen(("HALLO".ljust(80),) + (" " * 80,) * 23, (0, 5))


@examples(150)
@given(
    some.sampled_from(sorted(MODES)),
    some.sampled_from([step.id for step in full_plan().steps]),
    some.integers(1, 210),
    some.integers(1, 70),
    some.text(max_size=90),
    some.binary(max_size=64),
    some.booleans(),
    some.booleans(),
)
def test_no_console_is_too_small_and_nothing_hostile_reaches_it(
    mode, step_id, columns, rows, words, came, is_alone, is_practice
):
    step_id = STEP_OF_MODE.get(mode, step_id)
    made = state(
        step_id,
        beneath=("look",) * (mode in PASSING),
        mode=mode,
        came=came,
        notice=words,
        text=words,
        purpose=NOTE,
        lost=words,
        opening=(words,),
        ending=(words,),
        remark=words,
        board=words,
        link=words,
        is_alone=is_alone,
        is_practice=is_practice,
        loop=Loop(b"U" + came, LINE),
        board_screen=Screen((words[:80].ljust(80, "\x1b"),) * 24, (99, 99)),
        turns=int(is_alone),
    )
    if mode == "pressing":
        walk = course(plan=KEYS, trail=("press/q",))
        made = dataclasses.replace(made, course=walk, step_id="press/q+shift", is_free=is_alone)
    if mode == "play":
        made = after(state(step_id), "t")
    if mode == "marking" and made.screen is None or made.mode == "look" and mode == "play":
        return
    drawn = rows_of(draw_console(made, columns, rows))
    assert len(drawn) == rows
    for row in drawn:
        assert sum(get_cwidth(character) for character in row) <= columns
        assert all(character.isprintable() for character in row), ascii(row)


@pytest.mark.parametrize("columns, rows", [(80, 24), (100, 32), (200, 60), (132, 43), (80, 50)])
def test_screen_question_bytes_and_answer_keys_are_in_sight(columns, rows):
    shown = console(state(came=b"ok\r"), columns, rows)
    for words in (
        "HELLO",
        "Is the figure of hello whole",
        'sends: SUB "HELLO"',
        'received: "o" "k" CR',
        "y as expected",
        "n differs",
        "? help",
        "cursor row 0, column 5",
        "ready",
    ):
        assert words in shown, words


def test_the_whole_screen_alone_fills_a_console_of_its_size_exactly():
    rows = rows_of(draw_console(state("corners", is_alone=True), 80, 24))
    assert rows == list(full_plan().step("corners").expected.rows)


def test_the_frame_is_dropped_before_any_row_of_the_screen():
    framed, bare = console(state(), 100, 32), console(state(), 100, 31)
    assert "┌" in framed and "┌" not in bare
    assert "rows 0-" not in bare, "24 rows still fit"


def test_a_screen_that_does_not_fit_says_which_part_is_shown_and_scrolls_from_there():
    made = state("corners")
    shown = console(made, 80, 24)
    assert shown.count("A") >= 1 and "rows 0-" in shown
    first = first_shown(made, 80, 24)
    scrolled = after(dataclasses.replace(made, shown_from=first), "down", "down")
    assert first_shown(scrolled, 80, 24) == (first[0] + 2, 0)


def test_cursor_and_marks_can_be_read_without_colour():
    made = state("corners", mode="marking", cursor=(3, 10), marks={(2, 5): "x", (2, 6): "\ufffd"})
    shown = console(made)
    assert " 3►" in shown and "▼" in shown.split("\n")[3]
    assert "at row 3, column 10; marked: row 2 columns 5-6" in shown
    styles = {style for row in draw_console(made, 100, 32) for style, _ in row}
    assert any("pointer" in style for style in styles)
    assert any("marked" in style for style in styles)


def test_practice_shows_both_screens_side_by_side_where_there_is_room_else_by_a_key():
    made = state(is_practice=True, board_screen=HALLO)
    wide = console(made, 165, 32)
    assert "HELLO" in wide and "HALLO" in wide and "the simulated board shows this" in wide
    narrow = console(made, 100, 32)
    assert "HELLO" in narrow and "HALLO" not in narrow and "v board" in narrow
    turned = console(after(made, "v"), 100, 32)
    assert "HALLO" in turned and "HELLO" not in turned.replace('sends: SUB "HELLO"', "")


def test_practice_shows_the_board_for_a_question_without_an_expected_screen_too():
    made = state("lamp", is_practice=True, board_screen=HALLO)
    assert "HALLO" in console(made, 200, 60) and "What about lamp?" in console(made, 200, 60)
    assert "HALLO" not in console(made, 100, 32)
    assert "HALLO" in console(after(made, "v"), 100, 32)
