"""What the full-screen session shows in each mode, on a console of 80 columns and 24 rows."""

import dataclasses

import pytest

from helpers.bench_plan import look, plan, step
from helpers.bench_state import (
    LINE,
    PROFILE,
    after,
    after_event,
    answers,
    console,
    course,
    judged,
    state,
)
from helpers.golden import check
from helpers.predicted import predictions_of
from termprobe.journal.records import Answer, Answered
from termprobe.link.base import Received
from termprobe.plan.compile import compile_plan
from termprobe.plan.model import LineCheck
from termprobe.runner.known_fault import NamedFault, Prospect
from termprobe.script.load import load as load_script
from termprobe.session.messages import (
    Came,
    Foreseen,
    Judged,
    Lost,
    PressHeard,
    Prospected,
    ReportRead,
    Shown,
)
from termprobe.session.mode_table import MODES
from termprobe.session.react import hearing
from termprobe.session.react.waveform import Loop
from termprobe.terminal.predicted import RegionAsked

pytestmark = pytest.mark.golden

COLUMNS, ROWS = 80, 24
ANSWERED = answers(
    ("hello", "differs"),
    ("more", "unsure"),
    ("corners", "disputed"),
    ("solid", "skipped"),
    ("lamp", "as-expected"),
)
SUPPLY = state("supply-5v", "measure")
WORD = state("word", "typed-back")
ON_SCOPE = Loop(b"U", LINE)
MISSING = step("tabs", "screen", "look", title="Tab stops", not_fitted="profile has no command tab")
ENDED = after_event(
    after_event(
        state(
            None,
            "ended",
            is_known=True,
            path="runs/0007.run.jsonl",
            ending=("The hidden fault was made up.",),
        ),
        judged(ANSWERED, None),
    ),
    ReportRead("FAIL: board 0007 failed 1 of 9 steps\n"),
)
NAMED = NamedFault(
    "bank-0-data/stuck/2/0",
    (),
    "data line 2 of RAM bank 0 is stuck at 0",
    ("hello", "more"),
    told=(
        "Probe data line 2 of RAM bank 0, while solid is sent over and over: it must go both high "
        "and low meanwhile; stuck, it stays low.",
        "Look first at the solder joints, sockets and tracks of these pins: builders find more "
        "bad joints than dead chips.",
    ),
)


def asked_of_parts():
    """Return the state of a look of whose parts it can be asked."""
    known = predictions_of(state().step)._replace(region=RegionAsked("odd rows"))
    return after_event(state(), Foreseen(known))


CHECK = LineCheck("echo", "link", "Nothing comes back", "A token is sent.", check="no-echo")
REPLY = step("identity", "link", "reply", reply=b"\x1bX", title="Identification")


def pressing():
    """Return a state in which the second key of a keyboard is asked for, the first being wrong."""
    made = after(wrong_press(), "enter")
    return after_event(made, Shown(made.step_id, 1.0), 1.0)


def wrong_press():
    """Return a state in which the first key of a keyboard was pressed, and sent a wrong code."""
    walk = compile_plan(PROFILE, load_script("keyboard"))
    made = state("press/escape", "pressing", plan=walk, is_known=True)
    made, (wrong,) = hearing.hear(made, PressHeard((Received(0.1, b"q"),)), 1.0)
    return after_event(made, Judged(course([answered(wrong)], walk), wrong.step_id), 1.0)


def further(made, *keys):
    """Return the state after keys that turn pages, as long as there are any."""
    return after(dataclasses.replace(made, pages=9), *keys)


def answered(request):
    """Return the record that a RecordAnswer asks for."""
    return Answered(request.step_id, request.answer)


def line_checked():
    """Return a state in which a check of the line was not as it must be."""
    made = with_plan("echo", "waiting", CHECK, look("first", "screen"), is_known=True)
    heard = [Answered("echo", Answer("differs", note="I hear myself"), CHECK.hash)]
    return after_event(made, judged(heard, "first", "echo", is_held=True, plan=made.plan), 1.0)


def with_plan(step_id, mode, *steps, **changes):
    return state(step_id, mode, plan=plan(*steps), **changes)


STATES = {
    "announced": lambda: state("bell", "announced", board_keys="proven"),
    "ask": lambda: state("lamp", "ask", board_keys="on"),
    "beginning": lambda: state(
        "hello", "beginning", is_known=True, opening=("9 steps in 4 stages.",)
    ),
    "caution": lambda: state("supply-5v", "caution"),
    "cause-named": lambda: after_event(state(), Prospected(Prospect(NAMED))),
    "confirming": lambda: after(after_event(WORD, Came(b"anx\r"), 1.0), "c-w"),
    "ended": lambda: ENDED,
    "help": lambda: after(state(), "?"),
    "line-check": line_checked,
    "list": lambda: after_event(after(state(), "j"), judged(ANSWERED, "word")),
    "look": lambda: state("corners"),
    "lost": lambda: after_event(state(), Lost("the adapter vanished")),
    "marking": lambda: after(state("corners"), "n", "down", "r", "up", "space"),
    "measure": lambda: SUPPLY,
    "not-fitted": lambda: with_plan("tabs", "not-fitted", MISSING, look("first", "screen")),
    "paused": lambda: after(state(), "p"),
    "play": lambda: after(state("corners"), "t", "right", "right"),
    "pressing": pressing,
    "reading": lambda: after(ENDED, "r"),
    "reply": lambda: with_plan(
        "identity", "reply", REPLY, look("first", "screen"), next_id="first", came=b"\x1bY"
    ),
    "setting": lambda: state("word", "setting"),
    "stopping": lambda: after(state(), "q"),
    "switch-off": lambda: after_event(
        state("supply-5v", "waiting", is_known=True),
        judged([Answered("supply-5v", Answer(value=5.5))], None, "supply-5v"),
    ),
    "typed-back": lambda: after_event(WORD, Came(b"ax"), 1.0),
    "typing": lambda: after(state(), "+", *"warm"),
    "waiting": lambda: state("solid", "waiting", is_known=True),
    "wave": lambda: state(mode="wave", loop=ON_SCOPE),
    "waving": lambda: state(mode="waving", loop=ON_SCOPE),
    "wrong-press": wrong_press,
    "narrowing": lambda: after(asked_of_parts(), "n", "n"),
    "choosing": lambda: after(after_event(state(), Foreseen(predictions_of(state().step))), "n"),
}
"""A state of each mode."""

OTHER_STATES = {
    "help-second-page": lambda: further(after(state(), "?"), "down"),
    "help-practice": lambda: further(after(state(is_practice=True), "?"), "down"),
    "lost-held": lambda: after_event(state(), Lost("the board holds it", is_gone=False)),
    "measure-outside": lambda: after(SUPPLY, *"5.3"),
    "measure-refused": lambda: after(SUPPLY, *"5 A", "enter"),
    "look-more": lambda: state("more"),
    "look-full": lambda: state("solid"),
    "look-alone": lambda: after(state("corners"), "g"),
    "look-board-keys": lambda: state(board_keys="on"),
    "typed-back-wrong": lambda: after_event(WORD, Came(b"anx\r"), 1.0),
    "setting-step": lambda: state("half-duplex", "setting"),
}


def test_there_is_a_state_of_each_mode():
    assert set(STATES) == set(MODES)


@pytest.mark.parametrize("name", STATES | OTHER_STATES)
def test_each_panel(name):
    made = (STATES | OTHER_STATES)[name]()
    assert name not in MODES or made.mode == name
    check(f"panels/{name}.txt", console(made, COLUMNS, ROWS) + "\n")


def test_a_large_console_shows_the_list_of_steps_beside_the_screen():
    check("panels/look-132x40.txt", console(state("corners"), 132, 40) + "\n")
