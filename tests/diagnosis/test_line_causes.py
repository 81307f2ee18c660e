"""What is wrong behind the keyboard: transmitter, parity bit and speed, over a simulated line."""

import math

import pytest

from termprobe.board.board import Board
from termprobe.board.faults.catalogue import catalogue
from termprobe.board.link import SimLink
from termprobe.clock import CrankedClock
from termprobe.diagnosis.fault_names import parsed
from termprobe.diagnosis.key_conclusion import conclude
from termprobe.diagnosis.key_outcomes import Outcome
from termprobe.diagnosis.key_table import table_of
from termprobe.diagnosis.line_causes import SPEED_RATIOS
from termprobe.plan.presses import coded_presses
from termprobe.profile.load import load

PROFILE, ECMA = load("singlebyte-24x80"), load("ecma48-24x80")
BY_WHERE = [(parsed(name).where, name) for name in catalogue(PROFILE)]
TRANSMITTER = [name for where, name in BY_WHERE if where == "transmitter-data"]
LINE = [name for where, name in BY_WHERE if where in ("parity", "baud")]


def walked(fault=None):
    """Return what all presses give on a board with `fault`, over a line: press id -> outcomes."""
    board, clock = Board(PROFILE, [fault] if fault else []), CrankedClock()
    link, came = SimLink(board, clock), {}
    for press in coded_presses(PROFILE):
        board.press(press.key, frozenset(press.modifiers))
        heard = [one for _ in range(3) for one in link.read(0.02)]
        error = next((one.error for one in heard if one.error), "")
        came[press.id] = [Outcome.of(b"".join(one.data for one in heard), error)]
    return came


def sends(profile):
    return {one.name: one.sends for one in table_of(profile).hypotheses}


HEALTHY = walked()


@pytest.mark.parametrize("fault", [*TRANSMITTER[::4], *LINE])
def test_a_fault_behind_the_keyboard_is_in_the_first_class(fault):
    conclusion = conclude(PROFILE, walked(fault))
    assert conclusion.explained and fault in conclusion.suspects[0].faults


def test_no_press_tells_the_lines_of_the_transmitter_from_those_of_the_keyboard():
    table = sends(PROFILE)
    assert len(TRANSMITTER) == 14 + 21 + 42
    for name in TRANSMITTER:
        assert table[name] == table[name.replace("transmitter-data", "keyboard-code")]
    first = conclude(PROFILE, walked("transmitter-data/stuck/3/0")).suspects[0]
    assert first.faults == ("keyboard-code/stuck/3/0", "transmitter-data/stuck/3/0")
    assert first.title == (
        "code line 3 of the keyboard is stuck at 0; or data line 3 of the transmitter is stuck at 0"
    )


def test_each_way_of_sampling_a_frame_at_a_wrong_speed_has_one_ratio():
    """Bit n of a frame of ten is sampled at n + 1/2 bits of the listener.

    That is in bit floor((n + 1/2) * ratio) of the sender.
    """

    def sampled(ratio):
        return tuple(math.floor((bit + 0.5) * ratio) for bit in range(10))

    own = [sampled(float(ratio)) for ratio in SPEED_RATIOS]
    near_one = {sampled(thousandths / 1000) for thousandths in range(890, 1111)}
    assert len(set(own)) == len(own) and near_one - set(own) == {sampled(1.0)}


@pytest.mark.parametrize(
    "ratio", ["0.9", "0.915", "0.93", "0.935", "0.945", "1.065", "1.07", "1.085", "1.1"]
)
def test_a_speed_that_is_a_little_off_is_found_and_explained(ratio):
    conclusion = conclude(PROFILE, walked(f"baud/ratio/{ratio}"))
    names = map(parsed, conclusion.suspects[0].faults)
    speeds = [float(name.lines) for name in names if (name.where, name.kind) == ("host", "speed")]
    assert conclusion.explained and min(abs(speed - float(ratio)) for speed in speeds) < 0.01


def test_where_only_the_stop_bit_is_missed_keys_of_several_bytes_alone_show_it():
    """At 105.5 % the last sample falls on what follows the frame.

    An idle line looks like a stop bit, a start bit does not.
    """
    table = sends(ECMA)
    healthy, fast = table["healthy"], table["host/speed/1.055"]
    changed = {press for press in healthy if fast[press] != healthy[press]}
    assert changed == {press.id for press in coded_presses(ECMA) if len(press.code) > 1} != set()


@pytest.mark.parametrize("ratio", ["0.95", "0.98", "1.02", "1.05"])
def test_a_speed_within_the_tolerance_of_a_frame_disturbs_nothing(ratio):
    assert walked(f"baud/ratio/{ratio}") == HEALTHY and conclude(PROFILE, HEALTHY).is_healthy


def test_nothing_is_supposed_of_a_board_whose_circuit_is_not_known():
    assert ECMA.circuit is None
    wheres = {parsed(name).where for name in sends(ECMA)}
    assert wheres == {"healthy", "key-matrix", "keyboard-code", "host", "profile"}
