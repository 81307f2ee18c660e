"""The walk over a keyboard in lines of text."""

import io
import os
import sys
import types

import pytest

from termprobe.cli.console import Console
from termprobe.cli.key_lines import HELP_LINE, WalkLines, typed_command, typed_decision
from termprobe.plan.compile import compile_plan
from termprobe.profile.load import load
from termprobe.runner.key_walk import (
    AGAIN,
    KEEP_PRESS,
    NO_CODE_CAME,
    SKIP_PRESS,
    STOP_WALK,
    TAKE_BACK,
    Asked,
    CountsNoMore,
    PressTaken,
    Unnamed,
    WalkWish,
)
from termprobe.script.load import load as load_script
from termprobe.verdict import model
from termprobe.verdict.model import RunVerdict, StepVerdict
from termprobe.verdict.noticed import Bounce, Missing, Rate

PROFILE = load("singlebyte-24x80")
PLAN = compile_plan(PROFILE, load_script("keyboard"))
STEP = PLAN.step("press/1+shift")
NOTICED = model.Pressed((Missing(b"!"), Bounce(b"!", 2, 4.0)), Rate(1, 2))
WHY = (
    'no code received, not "!"; "!" came twice, 4 ms apart: the contact bounces; '
    "1 of 2 presses came: the contact works only sometimes"
)


class Run:
    """Stands for a run in which one verdict is known and two presses are left."""

    def __init__(self, word):
        self._verdict = StepVerdict(STEP.id, STEP.stage, STEP.title, word, NOTICED)

    def verdict(self, step):
        assert step is STEP
        return self._verdict

    def verdicts(self):
        left = [StepVerdict(str(n), "", "", "unanswered") for n in range(2)]
        return RunVerdict("incomplete", (self._verdict, *left))


def told(event, word="pass", is_quiet=False):
    stream = io.StringIO()
    WalkLines(Run(word), PROFILE.keyboard, Console(stream), is_quiet)(event)
    return stream.getvalue()


@pytest.mark.parametrize(
    "event, line",
    [
        (Asked(None), "Press any key, with a short pause between two; 2 presses left\n"),
        (PressTaken(None, b"\x1bA"), '  ESC "A" came, which no press left sends\n'),
        (PressTaken(None, b""), "  an error of the line came, which no press left sends\n"),
        (PressTaken(STEP, b"!"), f"  right: press/1+shift: {WHY}\n"),
        (CountsNoMore(STEP), "  undone: press/1+shift\n"),
        (CountsNoMore(None), "  no key was pressed before this one\n"),
        (Unnamed(), "  of which key? --order listed asks for one at a time\n"),
    ],
)
def test_each_event_is_one_line(event, line):
    assert told(event) == line


def test_a_press_is_asked_for_with_where_the_key_is():
    assert told(Asked(STEP)).startswith('Press "1 !" with SHIFT (row 1 of 5, key 1 from the left')


def test_a_wrong_press_stands_out_also_where_nobody_is_there_to_be_asked():
    line = f"  WRONG: press/1+shift: {WHY}\n"
    assert told(PressTaken(STEP, b"1"), "fail") == line
    assert told(PressTaken(STEP, b"1"), "fail", is_quiet=True) == line
    assert told(PressTaken(STEP, b"!"), is_quiet=True) == told(Asked(STEP), is_quiet=True) == ""


@pytest.fixture(name="typed")
def _typed(monkeypatch):
    """Return a function that types a text, or ends the input, and returns (command, told)."""
    reader, writer = os.pipe()
    monkeypatch.setattr(sys, "stdin", os.fdopen(reader, encoding="utf-8"))
    stream = io.StringIO()

    def command(text):
        if text is None:
            os.close(writer)
        else:
            os.write(writer, text.encode())
        return typed_command(Console(stream)), stream.getvalue()

    return command


@pytest.mark.parametrize(
    "text, command",
    [
        ("r\n", WalkWish(AGAIN)),
        ("take-back\n", WalkWish(TAKE_BACK)),
        (" m \n", WalkWish(NO_CODE_CAME)),
        ("q\n", WalkWish(STOP_WALK)),
        ("s it is loose\n", WalkWish(SKIP_PRESS, "it is loose")),
        ("skip\n", WalkWish(SKIP_PRESS)),
        ("", None),
        (None, WalkWish(STOP_WALK)),
    ],
)
def test_what_is_typed_is_a_command_of_the_walk(typed, text, command):
    assert typed(text) == (command, "")


def test_what_is_no_command_is_answered_with_those_that_are(typed):
    assert typed("what\n") == (None, f"{HELP_LINE}\n")


@pytest.mark.parametrize(
    "text, word",
    [
        ("\n", KEEP_PRESS),
        ("r\n", AGAIN),
        ("what\nx\n", TAKE_BACK),
        ("stop\n", STOP_WALK),
        ("", STOP_WALK),
    ],
)
def test_a_wrong_press_is_decided_about(monkeypatch, text, word):
    monkeypatch.setattr(sys, "stdin", io.StringIO(text))
    stream = io.StringIO()
    assert typed_decision(Console(stream)) == WalkWish(word)
    assert "ENTER keeps it, r presses it again, x takes it back" in stream.getvalue()


class Screen(io.StringIO):
    """A stream that is a screen."""

    def isatty(self):
        return True


@pytest.mark.parametrize(
    "stream, options, bells",
    [
        (Screen(), {}, 2),
        (Screen(), {"has_bell": False}, 0),
        (Screen(), {"is_quiet": True}, 0),
        (io.StringIO(), {}, 0),
    ],
)
def test_the_bell_of_a_screen_sounds_for_a_wrong_press_and_one_that_nobody_asked_for(
    stream, options, bells
):
    because = model.Pressed((Missing(b"!"),), Rate(0, 1))
    step = StepVerdict(STEP.id, STEP.stage, STEP.title, "fail", because)
    run = types.SimpleNamespace(verdict=lambda step_: step)
    lines = WalkLines(run, PROFILE.keyboard, Console(stream), **{"is_quiet": False} | options)
    lines(PressTaken(STEP, b"1"))
    lines(PressTaken(None, b"z"))
    assert stream.getvalue().count("\a") == bells
