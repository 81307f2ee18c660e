"""The keyboard as drawn: a mark on each key, and recorded drawings of both keyboards."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from helpers.bench_plan import step as made_step
from helpers.paths import RECORDED
from termprobe.plan.presses import coded_presses
from termprobe.profile.draw import draw_keyboard
from termprobe.profile.load import load
from termprobe.report.keyboard_drawing import (
    ALL_MISSING,
    ASKED,
    KEY_MARKS,
    LEFT_OUT,
    NONE,
    PARTLY,
    RIGHT,
    UNTESTED,
    WRONG,
    drawing,
    legend,
    marks,
    states,
)
from termprobe.verdict import noticed
from termprobe.verdict.model import Pressed, StepVerdict
from termprobe.verdict.noticed import Code, Rate

PROFILES = {name: load(name) for name in ("singlebyte-24x80", "ecma48-24x80")}
SINGLE = PROFILES["singlebyte-24x80"]
WORDS = ("pass", "fail", "unanswered", "skipped")
NOTHING_CAME = Pressed((noticed.Missing(b"a"),), Rate(0, 1))
ANOTHER_CAME = Pressed((noticed.WrongCode((Code(b"x"),), b"a"),), Rate(1, 1))
of_each_profile = pytest.mark.parametrize("profile", PROFILES.values(), ids=PROFILES)


def steps_of(profile):
    presses = coded_presses(profile)
    return [made_step(press.id, "keyboard", "press", press=press) for press in presses]


def verdict(step, word, because=None):
    return StepVerdict(step.id, "keyboard", step.title, word, because)


IN_THE_MIDST = [
    ("pass", None),
    ("fail", ANOTHER_CAME),
    ("fail", NOTHING_CAME),
    ("unanswered", None),
    ("skipped", None),
    ("unanswered", None),
]
"""What each key in turn is: right, wrong, dead, partly pressed, left out, untested."""
PARTLY_PRESSED = 3


def some_way_through(profile):
    """Return the drawing in the midst of a walk, with a key of each state."""
    steps = steps_of(profile)
    keys = list(dict.fromkeys(step.press.key for step in steps))
    verdicts = {}
    for step in steps:
        number = keys.index(step.press.key) % len(IN_THE_MIDST)
        word, because = IN_THE_MIDST[number]
        if number == PARTLY_PRESSED and not step.press.modifiers:
            word = "pass"
        verdicts[step.id] = verdict(step, word, because)
    return drawing(profile.keyboard, states(profile.keyboard, steps, verdicts, asked=steps[-1]))


@pytest.mark.parametrize("name", PROFILES)
def test_a_walk_under_way_is_drawn_as_recorded(name):
    recorded = (RECORDED / f"keyboard-{name}.txt").read_text(encoding="utf-8")
    assert "\n".join(some_way_through(PROFILES[name])) + "\n" == recorded


@of_each_profile
@given(data=st.data())
def test_marks_stand_on_their_own_keys_and_change_nothing_else(profile, data):
    keyboard = profile.keyboard
    some_state = st.sampled_from(KEY_MARKS)
    given_states = {str(key.name): data.draw(some_state) for key in keyboard.keys}
    plain, marked = draw_keyboard(keyboard), drawing(keyboard, given_states)[:-1]
    found = marks(keyboard, given_states)
    shown = sum(state != NONE for state in given_states.values())
    assert len({(mark.line, mark.column) for mark in found}) == len(found) == shown
    cells = [list(line.ljust(len(plain[0]) + 80)) for line in marked]
    for mark in found:
        assert cells[mark.line][mark.column] == mark.state.mark
        cells[mark.line][mark.column] = plain[mark.line].ljust(200)[mark.column]
    assert ["".join(row).rstrip() for row in cells] == list(plain)


@of_each_profile
def test_the_drawing_fits_an_80_column_console_and_every_mark_has_its_word(profile):
    lines = some_way_through(profile)
    assert max(map(len, lines)) <= 78 and len(lines) <= 24
    assert lines[-1] == legend()
    shown = [state for state in KEY_MARKS if state.mark.strip()]
    assert len({state.mark for state in shown}) == len(shown) == 7
    assert all(f"{state.mark} {state.meaning}" in legend() for state in shown)


def of_words(words):
    """Return the state of a key whose presses have these verdicts: the worst one."""
    if "fail" in words:
        return WRONG
    if set(words) == {"unanswered"}:
        return UNTESTED
    if "unanswered" in words:
        return PARTLY
    return {True: LEFT_OUT, False: RIGHT}["skipped" in words]


@given(st.lists(st.sampled_from(WORDS), min_size=3, max_size=3))
def test_the_worst_press_of_a_key_speaks(words):
    steps = [step for step in steps_of(SINGLE) if step.press.key == "q"]
    verdicts = {
        step.id: verdict(step, word, ANOTHER_CAME) for step, word in zip(steps, words, strict=True)
    }
    assert states(SINGLE.keyboard, steps, verdicts)["q"] == of_words(words)
    assert states(SINGLE.keyboard, steps, verdicts, asked=steps[0])["q"] == ASKED


CHORD_LACKS = Pressed((noticed.Missing(b"abc", (Code(b"a"),)),), Rate(0, 1))


@pytest.mark.parametrize(
    "because, state",
    [
        ([NOTHING_CAME] * 3, ALL_MISSING),
        ([NOTHING_CAME, NOTHING_CAME, ANOTHER_CAME], WRONG),
        ([NOTHING_CAME, None, NOTHING_CAME], WRONG),
        ([CHORD_LACKS] * 3, WRONG),
    ],
)
def test_a_key_is_dead_where_nothing_came_of_any_press_that_failed(because, state):
    steps = [step for step in steps_of(SINGLE) if step.press.key == "q"]
    verdicts = {
        step.id: verdict(step, "fail", why) for step, why in zip(steps, because, strict=True)
    }
    assert states(SINGLE.keyboard, steps, verdicts)["q"] == state


def test_a_key_without_presses_or_verdicts_has_no_mark():
    steps = steps_of(SINGLE)
    found = states(SINGLE.keyboard, steps, {})
    assert set(found) == {str(key.name) for key in SINGLE.keyboard.keys}
    assert set(found.values()) == {NONE} and not marks(SINGLE.keyboard, found)
