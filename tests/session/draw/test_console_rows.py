"""The drawn console: never wider or higher than it is, harmless, readable without colour, and with what matters in sight."""

import dataclasses

import pytest
from hypothesis import given, settings
from hypothesis import strategies as some
from prompt_toolkit.utils import get_cwidth

from helpers.bench_plan import PROFILE, full_plan
from termprobe.link.base import LineFormat
from termprobe.plan.compile import compile_plan
from termprobe.script.load import load as load_script
from termprobe.session import keymap
from termprobe.session.draw import screen_rows
from termprobe.session.react import dispatch, hearing
from termprobe.session.draw.console_rows import draw
from termprobe.session.react.waveform import Loop
from termprobe.session.messages import Came, Judged, Shown
from termprobe.session.state import State, progress
from termprobe.terminal.screen import Screen
from termprobe.verdict.judge import judge

LINE = LineFormat(9600, 7, "even", 1)
KEYS = compile_plan(PROFILE, load_script("keyboard"))


def state(step_id="hello", mode="look", **changes):
    made = State(
        full_plan(),
        PROFILE,
        LINE,
        "board 0007",
        "/dev/ttyUSB0",
        mode=mode,
        step_id=step_id,
        ready_at_s=-9.0,
    )
    return dataclasses.replace(made, **changes)


def console_of(rows):
    return ["".join(text for _, text in row) for row in rows]


def console(made, columns, rows):
    return "\n".join(row.rstrip() for row in console_of(draw(made, columns, rows)))


def answers(*pairs):
    return judge(
        full_plan(),
        [
            {"kind": "answer", "step": name, "word": word, "hash": f"hash of {name}"}
            for name, word in pairs
        ],
    )


@settings(max_examples=150, deadline=None)
@given(
    some.sampled_from(sorted(keymap.MODES)),
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
    step_id = {
        "caution": "supply-5v",
        "setting": "half-duplex",
        "typed-back": "word",
        "measure": "supply-5v",
    }.get(mode, step_id)
    made = state(
        step_id,
        before=("look",) * (mode in ("line", "help", "paused", "stopping", "lost", "list")),
        mode=mode,
        came=came,
        notice=words,
        text=words,
        purpose="note",
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
        is_on_board=is_alone,
    )
    if mode == "press":
        made = dataclasses.replace(
            made, plan=KEYS, step_id="press/q+shift", trail=("press/q",), is_free=is_alone
        )
    if mode == "play":
        made = dispatch.press(state(step_id), "t", 0.0)[0]
    if mode == "marking" and made.screen is None or made.mode == "look" and mode == "play":
        return
    drawn = console_of(draw(made, columns, rows))
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
        'back: "o" "k" CR',
        "y as expected",
        "n differs",
        "? help",
        "cursor row 0, column 5",
        "ready",
    ):
        assert words in shown, words


def test_the_part_of_the_screen_that_matters_is_shown_where_the_whole_does_not_fit():
    low = Screen((" " * 80,) * 23 + ("BOTTOM".ljust(80),), (23, 6))
    assert screen_rows.window(low, 10, 80) == (14, 0)
    assert screen_rows.window(low, 10, 80, scroll=(99, 99)) == (14, 0)
    assert screen_rows.window(low, 10, 40, focus=(0, 79)) == (0, 40)
    shown = console(state("corners"), 80, 24)
    assert shown.count("A") >= 1 and "rows 0-" in shown


def test_the_whole_screen_alone_fills_a_console_of_its_size_exactly():
    rows = console_of(draw(state("corners", is_alone=True), 80, 24))
    assert rows == [row for row in full_plan().step("corners").expected.rows]


def test_the_frame_is_dropped_before_any_row_of_the_screen():
    framed, bare = console(state(), 100, 32), console(state(), 100, 31)
    assert "┌" in framed and "┌" not in bare
    assert "rows 0-" not in bare, "24 rows still fit"


def test_cursor_and_marks_can_be_read_without_colour():
    made = state("corners", mode="marking", cursor=(3, 10), marks={(2, 5): "x", (2, 6): "\ufffd"})
    shown = console(made, 100, 32)
    assert " 3►" in shown and "▼" in shown.split("\n")[3]
    assert "at row 3, column 10; marked: row 2 columns 5-6" in shown
    styles = {style for row in draw(made, 100, 32) for style, _ in row}
    assert any("pointer" in style for style in styles) and any(
        "marked" in style for style in styles
    )


def test_each_verdict_has_a_sign_and_a_word_in_the_list():
    verdicts = answers(
        ("hello", "differs"),
        ("more", "unsure"),
        ("corners", "disputed"),
        ("solid", "skipped"),
        ("lamp", "as-expected"),
    )
    made = hearing.hear(state(mode="list", before=("look",)), Judged(verdicts, "word"), 0.0)[0]
    shown = console(made, 100, 32)
    for words in (
        "X fail       Look at hello",
        "? unsure",
        "! disputed",
        "- skipped",
        "+ pass       Is the lamp lit?",
        "# blocked    Look at bell  (needs hello, which failed)",
    ):
        assert words in shown, words


def test_progress_and_time_left_come_from_the_measured_pace():
    verdicts = answers(("hello", "as-expected"), ("lamp", "as-expected"))
    made = hearing.hear(
        state(mode="look", looks_s=(10.0, 30.0, 20.0)), Judged(verdicts, "word"), 0.0
    )[0]
    assert "2 done, 0 failed, 7 left, about 2 min" in console(made, 120, 32)
    assert "about" not in console(dataclasses.replace(made, looks_s=()), 120, 32).split("\n")[0], (
        "nothing is told before it is measured"
    )


def test_what_a_look_may_settle_is_not_counted_as_left_until_that_look_fails():
    steps = [
        dataclasses.replace(step, covered_by=("hello",)) if step.id in ("lamp", "word") else step
        for step in state().plan.steps
    ]
    made = dataclasses.replace(state(), plan=dataclasses.replace(state().plan, steps=tuple(steps)))
    assert progress(made) == (0, 0, 7)
    failed = answers(("hello", "differs"))
    assert progress(hearing.hear(made, Judged(failed, "lamp"), 0.0)[0]) == (2, 1, 7), (
        "the bell is blocked, lamp and word are to be asked"
    )


def test_what_is_typed_on_the_board_shows_live_which_characters_matched():
    made = hearing.hear(state("word", mode="typed-back"), Came(b"ax"), 1.0)[0]
    shown = console(made, 80, 24)
    assert (
        "type    a n y RETURN" in shown and "came    a x · ·" in shown and "1 of 4 right" in shown
    )


def test_limits_stand_beside_the_reading_and_judge_it_while_it_is_typed():
    made = state("supply-5v", mode="measure")
    for key in "5.3":
        made = dispatch.press(made, key, 0.0)[0]
    shown = console(made, 80, 24)
    assert (
        "It must read 4.75 to 5.25 V." in shown
        and "X 5.3 V is OUTSIDE the limits, 4.75 to 5.25 V" in shown
    )
    assert (
        "Switch off at once if: the regulator is too hot to touch" in shown
        and "Mains and the tube" in shown
    )


def test_help_and_footer_come_from_the_table_of_keys():
    made = dispatch.press(state(), "?", 0.0)[0]
    shown = console(made, 120, 50)
    for keys, text in keymap.help_lines("look"):
        assert keys in shown and text in shown
    assert "practice" not in shown
    assert dispatch.press(made, "x", 0.0)[0].mode == "look"


def test_a_question_is_helped_and_answered_with_yes_and_no():
    made = state("lamp", "ask", board_keys="on")
    assert "y yes  n no" in console(
        made, 80, 24
    ) and "the board's own keyboard: y yes, n no" in console(made, 80, 24)
    shown = console(dispatch.press(made, "?", 0.0)[0], 120, 50)
    assert "no: it is not as it must be" in shown and "cursor included" not in shown


def test_an_answer_that_is_not_good_says_what_it_has_done():
    before = state(mode="sending", verdicts={verdict.id: verdict for verdict in answers().steps})
    told = {}
    for word in ("as-expected", "differs", "unsure"):
        made, _ = hearing.hear(before, Judged(answers(("hello", word)), "more", "hello"), 1.0)
        told[word] = made.notice
    assert told == {
        "as-expected": "",
        "differs": "Look at hello: fail; this blocks 1 step",
        "unsure": "Look at hello: unsure",
    }
    assert "* Look at hello: fail; this blocks 1 step" in console(
        hearing.hear(before, Judged(answers(("hello", "differs")), "more", "hello"), 1.0)[0], 80, 24
    )


def test_help_that_is_longer_than_the_console_has_pages():
    made = dispatch.press(state(), "?", 0.0)[0]
    pages = [console(made, 80, 24), console(dispatch.press(made, "down", 0.0)[0], 80, 24)]
    assert pages[0] != pages[1] and "ctrl-C" not in pages[0] and "ctrl-C" in pages[1]


def test_practice_shows_both_screenes_side_by_side_where_there_is_room_else_by_a_key():
    made = state(
        is_practice=True, board_screen=Screen(("HALLO".ljust(80),) + (" " * 80,) * 23, (0, 5))
    )
    wide = console(made, 165, 32)
    assert "HELLO" in wide and "HALLO" in wide and "the simulated board shows this" in wide
    narrow = console(made, 100, 32)
    assert "HELLO" in narrow and "HALLO" not in narrow and "v board" in narrow
    turned = console(dispatch.press(made, "v", 0.0)[0], 100, 32)
    assert "HALLO" in turned and "HELLO" not in turned.replace('sends: SUB "HELLO"', "")


def test_practice_shows_the_board_for_a_question_without_an_expected_screen_too():
    made = state(
        "lamp",
        is_practice=True,
        board_screen=Screen(("HALLO".ljust(80),) + (" " * 80,) * 23, (0, 5)),
    )
    assert "HALLO" in console(made, 200, 60) and "What about lamp?" in console(made, 200, 60)
    assert "HALLO" not in console(made, 100, 32) and "HALLO" in console(
        dispatch.press(made, "v", 0.0)[0], 100, 32
    )


def test_a_stage_is_cut_only_as_far_as_the_title_of_its_step_needs():
    made = state("solid")
    long = dataclasses.replace(
        made,
        plan=dataclasses.replace(
            made.plan,
            stages=tuple(
                dataclasses.replace(stage, title=f"{stage.title} that is described at length here")
                for stage in made.plan.stages
            ),
        ),
    )
    assert " stage 2 of 4: Screen that is described at length here - Look at solid" in console(
        long, 80, 24
    )
    assert "… - Look at solid" in console(long, 40, 24)


def test_steps_that_are_not_fitted_are_no_progress():
    made = full_plan()
    left_out = dataclasses.replace(
        made,
        steps=tuple(
            dataclasses.replace(one, not_fitted="no keyboard") if one.stage == "keyboard" else one
            for one in made.steps
        ),
    )
    found = hearing.hear(state(plan=left_out), Judged(judge(left_out, []), "hello"), 0.0)[0]
    assert "0 done, 0 failed, 7 left" in console(found, 120, 32)


def test_a_screen_that_came_late_is_not_answered_by_a_key_meant_for_the_one_before():
    made = hearing.hear(state(mode="sending"), Shown("hello", 10.0), 10.0)[0]
    assert dispatch.press(made, "y", 10.1)[1] == ()
    assert dispatch.press(made, "y", 10.1)[0].notice == dispatch.LOOK_FIRST
    assert len(dispatch.press(made, "y", 10.3)[1]) == 1
