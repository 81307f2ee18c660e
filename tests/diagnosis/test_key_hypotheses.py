"""Concluding from presses what is wrong behind the keyboard: transmitter, parity bit and speed, heard over a simulated line."""

import math

import pytest

from termprobe.board.board import Board
from termprobe.board.faults.catalogue import catalogue, keyboard_catalogue
from termprobe.board.keyboard_board import simulate
from termprobe.board.link import SimLink
from termprobe.clock import CrankedClock
from termprobe.diagnosis.key_hypotheses import SPEED_RATIOS, hypotheses, seen
from termprobe.diagnosis.key_conclusion import conclude
from termprobe.plan.presses import chord_presses, coded_presses
from termprobe.profile.load import load

PROFILE, ECMA = load("singlebyte-24x80"), load("ecma48-24x80")
TRANSMITTER = [name for name in catalogue(PROFILE) if name.startswith("transmitter-data/")]
LINE = [name for name in catalogue(PROFILE) if name.split("/")[0] in ("parity", "baud")]


def walked(fault=None):
    """Return what all presses give on a board with `fault`, over a line: press id -> [(bytes, error)]."""
    board, clock = Board(PROFILE, [fault] if fault else []), CrankedClock()
    link, came = SimLink(board, clock), {}
    for press in coded_presses(PROFILE):
        board.press(press.key, frozenset(press.modifiers))
        heard = [one for _ in range(3) for one in link.read(0.02)]
        error = next((one.error for one in heard if one.error), "")
        came[press.id] = [(b"".join(one.data for one in heard), error)]
    return came


HEALTHY = walked()


@pytest.mark.parametrize("fault", [*TRANSMITTER[::4], *LINE])
def test_a_fault_behind_the_keyboard_is_in_the_first_class(fault):
    conclusion = conclude(PROFILE, walked(fault))
    assert conclusion.explained and fault in conclusion.suspects[0].faults


def test_no_press_tells_the_lines_of_the_transmitter_from_those_of_the_keyboard():
    sends = {one.name: one.sends for one in hypotheses(PROFILE)}
    assert len(TRANSMITTER) == 14 + 21 + 42
    assert all(
        sends[name] == sends[name.replace("transmitter-data", "keyboard-code")]
        for name in TRANSMITTER
    )
    first = conclude(PROFILE, walked("transmitter-data/stuck/3/0")).suspects[0]
    assert first.faults == ("keyboard-code/stuck/3/0", "transmitter-data/stuck/3/0")
    assert (
        first.title
        == "code line 3 of the keyboard always reads 0; or data line 3 of the transmitter always reads 0"
    )


def test_a_silent_line_is_no_fault_of_the_matrix_until_a_key_comes_through():
    """A board that sends nothing is most often a cable; one key that comes through rules that out."""
    missing = {press: [(b"", "")] for press in HEALTHY}
    conclusion = conclude(PROFILE, missing)
    first = conclusion.suspects[0]
    assert (
        conclusion.explained
        and first.faults == ("host/silent",)
        and first.block == "link"
        and first.probability > 0.99
    )
    row = {
        f"press/{key.name}": [(b"", "")]
        for key in PROFILE.keyboard.keys
        if key.role == "code" and key.matrix[0] == 3
    }
    assert (
        "key-matrix/row-open/3"
        in conclude(PROFILE, row | {"press/x": HEALTHY["press/x"]}).suspects[0].faults
    )


def test_each_way_of_sampling_a_frame_at_a_wrong_speed_has_one_ratio():
    """Bit n of a frame of ten is sampled at n + 1/2 bits of the listener, in bit floor((n + 1/2) * ratio) of the sender."""

    def sampled(ratio):
        return tuple(math.floor((place + 0.5) * ratio) for place in range(10))

    own = [sampled(float(ratio)) for ratio in SPEED_RATIOS]
    assert len(set(own)) == len(own)
    assert {sampled(thousandths / 1000) for thousandths in range(890, 1111)} - set(own) == {
        sampled(1.0)
    }


@pytest.mark.parametrize(
    "ratio", ["0.9", "0.915", "0.93", "0.935", "0.945", "1.065", "1.07", "1.085", "1.1"]
)
def test_a_speed_that_is_a_little_off_is_found_and_explained(ratio):
    conclusion = conclude(PROFILE, walked(f"baud/ratio/{ratio}"))
    first = conclusion.suspects[0]
    speeds = [
        float(name.rsplit("/", 1)[1]) for name in first.faults if name.startswith("host/speed/")
    ]
    assert conclusion.explained and min(abs(speed - float(ratio)) for speed in speeds) < 0.01


def test_where_only_the_stop_bit_is_missed_keys_of_several_bytes_alone_show_it():
    """At 105.5 % the last sample falls on what follows the frame: an idle line looks like a stop bit, a start bit does not."""
    table = {one.name: one.sends for one in hypotheses(ECMA)}
    changed = {
        press
        for press, outcomes in table["host/speed/1.055"].items()
        if outcomes != table["healthy"][press]
    }
    assert changed == {press.id for press in coded_presses(ECMA) if len(press.code) > 1} != set()


@pytest.mark.parametrize("ratio", ["0.95", "0.98", "1.02", "1.05"])
def test_a_speed_within_the_tolerance_of_a_frame_disturbs_nothing(ratio):
    assert walked(f"baud/ratio/{ratio}") == HEALTHY and conclude(PROFILE, HEALTHY).is_healthy


@pytest.mark.parametrize("profile", [PROFILE, ECMA], ids=lambda profile: profile.id)
def test_presses_of_other_keys_are_rightly_taken_for_healthy(profile):
    """A fault of one key is tried with its own presses only; here it is tried with all of them."""
    table = {
        one.name: one.sends for one in hypotheses(profile, with_chords=profile.keyboard.diodes)
    }
    of_keys = {name.split("/")[1]: name for name in keyboard_catalogue(profile)}
    for name in (of_keys["key-dead"], of_keys["key-bounces"], of_keys["keys-swapped"]):
        keyboard = simulate(profile, (name,))
        for press in coded_presses(profile):
            data = b"".join(
                data for _, data in keyboard.press(press.key, frozenset(press.modifiers))
            )
            assert table[name][press.id] == (seen(data),), (name, press.id)
        for chord in chord_presses(profile):
            data = b"".join(data for _, data in keyboard.chord([*chord.held, chord.key]))
            assert table[name][chord.id] == (seen(data, is_chord=True),), (name, chord.id)
