"""The loop for the scope is set up."""

import pytest

from helpers.bench_state import LINE, after, asked_by, console, state
from termprobe.link.base import LineFormat
from termprobe.session.messages import StartLoop
from termprobe.session.modes.wave import BYTES, GAP, SPEED
from termprobe.session.react.typed_lines import accept, open_line
from termprobe.session.react.waveform import Loop

U = Loop(b"U", LINE)


def accepted(purpose, typed):
    return accept(open_line(state(mode="wave", loop=U), purpose, typed))[0]


def test_bytes_gap_and_speed_of_the_loop_are_typed():
    assert accepted(BYTES, 'ESC "=" 20h').loop.data == b"\x1b= "
    assert accepted(GAP, "5 ms").loop.gap_s == 0.005
    assert accepted(GAP, "").loop.gap_s == 0.0
    assert accepted(SPEED, "1200 8N1").loop.format == LineFormat(1200, 8, "none", 1)
    assert accepted(SPEED, "300 7o2").loop.format == LineFormat(300, 7, "odd", 2)
    assert accepted(SPEED, "110").loop.format == LineFormat(110, 7, "even", 1)


@pytest.mark.parametrize(
    "purpose, typed",
    [
        (BYTES, ""),
        (BYTES, "esc"),
        (GAP, "-1"),
        (GAP, "99"),
        (SPEED, ""),
        (SPEED, "0"),
        (SPEED, "fast"),
        (SPEED, "1200 9X3"),
        (SPEED, "1200 8N"),
        (SPEED, "1200 8N12"),
    ],
)
def test_what_the_loop_cannot_do_is_refused(purpose, typed):
    made = accepted(purpose, typed)
    assert made.mode == "typing" and "must" in made.notice


def test_the_bytes_of_now_are_given_to_be_changed():
    assert after(state(mode="wave", loop=U), "d").text == '"U"'


def test_the_loop_is_started_and_the_step_sent_again_afterwards():
    made = state(mode="wave", loop=U)
    assert "Enter starts." in console(made)
    assert after(made, "enter").mode == "waving" and asked_by(made, "enter") == (StartLoop(U),)
    assert after(made, "w").mode == "waiting"
