"""Lines that are typed: what is taken and what is refused."""

import dataclasses

import pytest

from helpers.bench_plan import PROFILE, full_plan
from termprobe.link.base import LineFormat
from termprobe.notation import parse
from termprobe.observer.base import AS_EXPECTED, DIFFERS
from termprobe.session.react import typed_lines, waveform
from termprobe.session.state import State


LETTER = {"N": "none", "E": "even", "O": "odd", "M": "mark", "S": "space"}


def frame(name, speed_baud=9600):
    return LineFormat(speed_baud, int(name[0]), LETTER[name[1]], int(name[2]))


def measured(typed):
    state = State(full_plan(), PROFILE, frame("7E1"), mode="measure", step_id="supply-5v")
    return typed_lines.accept(
        dataclasses.replace(typed_lines.open_line(state, "reading"), text=typed)
    )


@pytest.mark.parametrize(
    "typed, value, word",
    [
        ("5.04", 5.04, AS_EXPECTED),
        ("5040 mV", 5.04, AS_EXPECTED),
        ("4.75V", 4.75, AS_EXPECTED),
        ("5.26", 5.26, DIFFERS),
        ("-5", -5.0, DIFFERS),
    ],
)
def test_a_reading_is_taken_with_its_unit_and_judged(typed, value, word):
    state, (record,) = measured(typed)
    assert (record.answer.value, record.answer.word) == (value, word)
    assert ("OUTSIDE" in state.notice) == (word == DIFFERS)


@pytest.mark.parametrize("typed", ["", "five", "5 A", "5 V V"])
def test_what_is_no_reading_is_refused_with_a_reason_and_stays_typed(typed):
    state, requests = measured(typed)
    assert (
        requests == ()
        and state.mode == "line"
        and state.text == typed
        and "must be" in state.notice
    )


def accepted(purpose, typed):
    state = State(
        full_plan(),
        PROFILE,
        frame("7E1"),
        mode="wave",
        step_id="hello",
        loop=waveform.Loop(b"U", frame("7E1")),
    )
    return typed_lines.accept(
        dataclasses.replace(typed_lines.open_line(state, purpose), text=typed)
    )[0]


def test_bytes_gap_and_speed_of_the_loop_are_typed():
    assert accepted("wave-bytes", 'ESC "=" 20h').loop.data == b"\x1b= "
    assert accepted("wave-gap", "5 ms").loop.gap_s == 0.005
    assert accepted("wave-speed", "1200 8N1").loop.format == frame("8N1", 1200)
    assert accepted("wave-speed", "110").loop.format == frame("7E1", 110)


@pytest.mark.parametrize(
    "purpose, typed",
    [
        ("wave-bytes", ""),
        ("wave-bytes", "esc"),
        ("wave-gap", "-1"),
        ("wave-gap", "99"),
        ("wave-speed", "0"),
        ("wave-speed", "fast"),
        ("wave-speed", "1200 9X3"),
    ],
)
def test_what_the_loop_cannot_do_is_refused(purpose, typed):
    state = accepted(purpose, typed)
    assert state.mode == "line" and "must" in state.notice


def test_a_reason_must_be_given_for_disputing_and_skipping():
    for purpose in ("dispute", "skip"):
        state, requests = typed_lines.accept(
            typed_lines.open_line(
                State(full_plan(), PROFILE, frame("7E1"), mode="look", step_id="hello"), purpose
            )
        )
        assert requests == () and "must be told" in state.notice


def test_the_notation_of_the_loop_is_read_back():
    assert parse(typed_lines.wave_text(waveform.Loop(b'\x1b="\x80', frame("8N1")))) == b'\x1b="\x80'
