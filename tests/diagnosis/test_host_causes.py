"""What a host that is set up wrongly, or hears nothing, makes of a healthy keyboard."""

import dataclasses

import pytest

from helpers.key_walks import walked
from termprobe.diagnosis.host_causes import wrong_hosts
from termprobe.diagnosis.key_conclusion import conclude
from termprobe.diagnosis.key_hypothesis import outcome_of
from termprobe.diagnosis.key_outcomes import Outcome
from termprobe.diagnosis.key_table import table_of
from termprobe.plan.presses import coded_presses
from termprobe.profile.load import load

PROFILE = load("singlebyte-24x80")
EIGHTH_BIT = {
    "host/format/even": lambda code: code | 0x80 * (code.bit_count() & 1),
    "host/format/odd": lambda code: code | 0x80 * (~code.bit_count() & 1),
    "host/format/mark": lambda code: code | 0x80,
}


@pytest.mark.parametrize("name", EIGHTH_BIT)
def test_a_host_that_reads_the_parity_bit_is_told_from_a_fault_of_the_board(name):
    came = {
        press.id: [Outcome.of(bytes(map(EIGHTH_BIT[name], press.code)))]
        for press in coded_presses(PROFILE)
    }
    first = conclude(PROFILE, came).suspects[0]
    assert name in first.faults and first.block == "link"


def test_parity_errors_of_every_character_point_at_the_line():
    came = {press.id: [Outcome.of(press.code, "parity")] for press in coded_presses(PROFILE)}
    first = conclude(PROFILE, came).suspects[0]
    assert "host/parity" in first.faults
    assert "the host expects another parity than the board sends" in first.title


def test_framing_errors_now_and_then_point_at_the_speed():
    came = walked(PROFILE)
    for press in list(came)[::3]:
        came[press] = [Outcome.of(b"\x7f", "framing")]
    assert "host/speed" in conclude(PROFILE, came).suspects[0].faults


def test_a_silent_line_is_no_fault_of_the_matrix_until_a_key_comes_through():
    """A board that sends nothing is most often a cable; one key that comes rules that out."""
    silent = [Outcome.of(b"")]
    missing = {press.id: silent for press in coded_presses(PROFILE)}
    conclusion = conclude(PROFILE, missing)
    first = conclusion.suspects[0]
    assert conclusion.explained and first.faults == ("host/silent",)
    assert first.block == "link" and first.probability > 0.99
    keys = [key for key in PROFILE.keyboard.keys if key.role == "code" and key.matrix[0] == 3]
    row = {f"press/{key.name}": silent for key in keys}
    one_came = row | {"press/x": [Outcome.of(b"x")]}
    assert "key-matrix/row-open/3" in conclude(PROFILE, one_came).suspects[0].faults


@pytest.mark.parametrize("level, name", [(1, "host/parity/mark"), (0, "host/parity/space")])
def test_a_fixed_parity_bit_gives_errors_where_even_parity_would_be_the_other_level(level, name):
    """Even parity makes the number of ones even, its own bit counted.

    The bit is 1 where the code has an odd number of ones.
    """
    assert PROFILE.link.parity == "even"
    errors = {True: "", False: "parity"}
    came = {}
    for press in coded_presses(PROFILE):
        is_right = press.code[0].bit_count() % 2 == level
        came[press.id] = [Outcome.of(press.code, errors[is_right])]
    assert {error for ((_, error, _),) in came.values()} == {"", "parity"}
    assert name in conclude(PROFILE, came).suspects[0].faults


def test_a_host_that_expects_odd_parity_finds_errors_where_even_parity_has_none():
    odd = dataclasses.replace(PROFILE, link=dataclasses.replace(PROFILE.link, parity="odd"))
    press = next(press for press in coded_presses(odd) if press.id == "press/q")
    sends = {one.name: one.sends for one in wrong_hosts(odd, [press])}
    assert press.code[0].bit_count() % 2 == 0  # so odd parity's own bit is 1
    assert sends["host/parity/mark"] == {"press/q": (Outcome.of(b"q"),)}
    assert sends["host/parity/space"] == {"press/q": (Outcome.of(b"q", "parity"),)}


def test_no_parity_errors_are_expected_of_a_line_without_parity():
    line_without = load("ecma48-24x80")
    assert line_without.link.parity == "none"
    sends = {one.name: one.sends for one in table_of(line_without).hypotheses}
    assert "host/parity/mark" not in sends
    assert sends["host/speed"]["press/q"] == (Outcome.of(b"q"), Outcome.error_alone("framing"))


def test_where_nothing_arrives_no_press_sends_anything():
    presses = coded_presses(PROFILE)
    silent = next(one for one in wrong_hosts(PROFILE, presses) if one.name == "host/silent")
    nothing = {press.id: (outcome_of(press, b""),) for press in presses}
    assert {press.id: silent.sends[press.id] for press in presses} == nothing
