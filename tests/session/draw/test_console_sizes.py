"""The console from 40 x 12 to 200 x 60, in every mode: what must always be there is there."""

import dataclasses

import pytest
from hypothesis import given
from hypothesis import strategies as some

from helpers.bench_plan import PROFILE, full_plan
from helpers.bench_state import LINE, after, console, rows_of, state
from helpers.examples import examples
from termprobe.plan.compile import compile_plan
from termprobe.plan.model import expected_of
from termprobe.script.load import load as load_script
from termprobe.session.draw.console_rows import draw_console, first_shown
from termprobe.session.mode_table import MODES
from termprobe.session.react.typed_lines import NOTE
from termprobe.session.react.waveform import Loop

KEYS = compile_plan(PROFILE, load_script("keyboard"))
ACCEPTANCE = compile_plan(PROFILE, load_script("acceptance"))
LONG = (
    "Are A, B, C and D in the corners (D one row above the last), 1 to 6 on a curve at columns 2, "
    "4, 8, 16, 32 and 64, + at the right end of row 7, x and y on a diagonal, and z at row 17?"
)
CAUTION = (
    "Mains voltage and the picture tube can kill. The anode keeps thousands of volts long after "
    "switching off; the tube can implode. Unplug before you touch, work as your local rules ask."
)
STEP_OF_MODE = {
    "caution": "supply-5v",
    "setting": "half-duplex",
    "typed-back": "word",
    "measure": "supply-5v",
}
PASSING = ("typing", "help", "paused", "stopping", "lost", "list")
SIZES = [(80, 24), (100, 32), (132, 43), (200, 60)]


def in_mode(mode, **changes):
    """Return a state in `mode` whose step has a long question and a long caution."""
    step_id = STEP_OF_MODE.get(mode, "corners")
    plan = full_plan()
    told = dataclasses.replace(plan.step(step_id), question=LONG, caution=CAUTION)
    steps = tuple(told if step.id == step_id else step for step in plan.steps)
    plan = dataclasses.replace(plan, steps=steps)
    if mode == "pressing":
        made = state("press/q+shift", mode, plan=KEYS, trail=("press/q",))
    elif mode == "play":
        made = after(state(step_id, plan=plan), "t")
    else:
        made = state(
            step_id,
            mode,
            plan=plan,
            beneath=("look",) * (mode in PASSING),
            purpose=NOTE,
            loop=Loop(b"U", LINE),
            opening=("9 steps in 4 stages.",),
            looks_s=(20.0,) * 3,
        )
    return dataclasses.replace(made, **changes)


def moved(made, key, columns, rows):
    """Return the state after a key, which the application tells what is in sight."""
    return after(dataclasses.replace(made, shown_from=first_shown(made, columns, rows)), key)


def reachable(made, columns, rows):
    """Return all words of the console, of what it can be scrolled to, and of its help."""
    pages = [console(made, columns, rows)]
    for _ in range(40):
        made = moved(made, "down", columns, rows)
        pages.append(console(made, columns, rows))
    if made.mode != "help" and MODES[made.mode].find("?", made):
        made = after(made, "?")
        for _ in range(12):
            pages.append(console(made, columns, rows))
            made = moved(made, "down", columns, rows)
    return [" ".join(page.split()) for page in pages]


@examples(120)
@given(
    some.sampled_from(sorted(MODES)),
    some.integers(40, 200),
    some.integers(12, 60),
    some.booleans(),
)
def test_the_board_is_named_and_nothing_is_wider_than_the_console(mode, columns, rows, is_practice):
    drawn = rows_of(draw_console(in_mode(mode, is_practice=is_practice), columns, rows))
    assert len(drawn) == rows and max(map(len, drawn)) <= columns
    assert "board 0007" in drawn[0], drawn[0]


@examples(60)
@given(some.sampled_from(sorted(MODES)), some.integers(40, 200), some.integers(12, 60))
def test_all_words_of_question_and_caution_can_be_read(mode, columns, rows):
    made = in_mode(mode)
    pages = reachable(made, columns, rows)
    if MODES[mode].shows_question and not MODES[mode].question and mode != "pressing":
        assert any(LONG in page for page in pages), "the question"
    if mode == "caution":
        words = set(" ".join(pages).split())
        assert set(CAUTION.split()) <= words


@pytest.mark.parametrize("columns, rows", SIZES)
@pytest.mark.parametrize("mode", ["look", "measure", "marking", "waiting"])
def test_question_and_caution_are_whole_at_usual_sizes(mode, columns, rows):
    shown = " ".join(console(in_mode(mode), columns, rows).split())
    assert LONG in shown and CAUTION in shown


@pytest.mark.parametrize("step", [step for step in ACCEPTANCE.steps if expected_of(step)])
def test_every_question_of_the_acceptance_is_whole_on_the_smallest_usual_console(step):
    made = state(step.id, plan=ACCEPTANCE)
    shown = " ".join(console(made, 80, 24).split())
    assert step.question in shown and step.title in shown


def test_the_estimate_goes_first_then_the_link_and_the_progress_never_before_the_board():
    made = in_mode("look", link="/dev/serial/by-id/an-adapter-with-a-long-name")
    first = [console(made, columns, 24).split("\n")[0] for columns in (120, 100, 75, 42, 30, 20)]
    assert "about" in first[0] and "long-name" in first[0] and "ready" in first[0]
    assert "about" not in first[1] and "long-name" in first[1]
    assert "long-name" not in first[2] and "ready" in first[2]
    assert "9 left" in first[3] and "ready" not in first[3]
    assert all("board 0007" in row for row in first)


def test_a_board_with_a_long_number_is_named_in_full():
    made = in_mode("look", board="board 0123456789-0123456789-0123456789-0123456789")
    shown = "".join(row.strip() for row in console(made, 40, 24).split("\n")[:3])
    assert "0123456789-0123456789-0123456789-0123456789" in shown


def test_a_long_notice_is_told_whole():
    words = "the frame must be data bits, parity letter N E O M S, and stop bits, such as 7E1 " * 2
    shown = " ".join(console(in_mode("look", notice=words.strip()), 80, 24).split())
    assert words.strip() in shown


def test_a_panel_larger_than_its_room_says_so_and_scrolls():
    made = in_mode("caution")
    assert "down: more" in console(made, 40, 12)
    last = made
    for _ in range(30):
        last = moved(last, "down", 40, 12)
    shown = console(last, 40, 12)
    assert "safe to go on" in " ".join(shown.split()) and "up: more" in shown
    assert console(moved(last, "up", 40, 12), 40, 12) != shown, "scrolling stops at the end"
