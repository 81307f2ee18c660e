"""The scan of the simulated keyboard: order, chords, repeats, and what a board makes of it."""

import dataclasses

import pytest

from termprobe.board.board import Board
from termprobe.board.keyboard import CHORD_STEP_S, CONTACT_BOUNCE_S, REPEAT_AFTER_S
from termprobe.board.keyboard_board import simulate
from termprobe.board.link import SimLink
from termprobe.clock import CrankedClock
from termprobe.profile.load import load

NAMES = ("singlebyte-24x80", "ecma48-24x80")
PROFILES = {name: load(name) for name in NAMES}


def test_codes_of_one_press_come_in_the_order_of_the_scan_column_by_column():
    keys = simulate(PROFILES["singlebyte-24x80"], ["key-matrix/columns-bridged/0-1"])
    assert [data for _, data in keys.press("3")] == [b"1", b"3"]  # row 0, columns 0 and 1
    (first_s, _), (second_s, _) = keys.press("3")
    assert first_s == 0 < second_s < 0.025


def test_a_ghost_needs_three_keys_and_a_matrix_without_diodes():
    keys = simulate(PROFILES["singlebyte-24x80"])
    assert [data for _, data in keys.chord(["a", "d"])] == [b"a", b"d"]
    events = keys.chord(["a", "d", "s"])  # crossings 4-0, 4-1, 5-0: the ghost is 5-1, F
    assert [data for _, data in events] == [b"a", b"d", b"s", b"f"]
    assert events[2][0] == pytest.approx(2 * CHORD_STEP_S) and events[3][0] - events[2][0] < 0.025
    with_diodes = dataclasses.replace(
        PROFILES["singlebyte-24x80"],
        keyboard=dataclasses.replace(PROFILES["singlebyte-24x80"].keyboard, diodes=True),
    )
    assert [data for _, data in simulate(with_diodes).chord(["a", "d", "s"])] == [b"a", b"d", b"s"]


def test_a_held_key_repeats_where_the_keyboard_and_the_key_do():
    automatic, by_key = simulate(PROFILES["ecma48-24x80"]), simulate(PROFILES["singlebyte-24x80"])
    assert automatic.press("a", hold_s=0.1) == ((0.0, b"a"),)
    repeated = automatic.press("a", hold_s=1.0)
    assert repeated[1][0] == REPEAT_AFTER_S and {data for _, data in repeated} == {b"a"}
    assert len(repeated) == 9  # 15 a second
    assert automatic.press("return", hold_s=1.0) == ((0.0, b"\r"),)
    assert by_key.press("a", hold_s=1.0) == ((0.0, b"a"),)
    assert len(by_key.press("a", {"repeat"}, hold_s=1.0)) == 15


def test_a_modifier_in_the_matrix_is_seen_by_the_scan_like_any_key():
    profile = PROFILES["singlebyte-24x80"]
    shift = dataclasses.replace(profile.keyboard.key("left-shift"), matrix=(0, 7))
    others = [key for key in profile.keyboard.keys if key.name != shift.name]
    keys = (shift, *others)
    moved = dataclasses.replace(profile, keyboard=dataclasses.replace(profile.keyboard, keys=keys))
    assert simulate(moved).press("a", {"shift"}) == ((0.0, b"A"),)
    assert simulate(moved, ["key-matrix/column-open/7"]).press("a", {"shift"}) == ((0.0, b"a"),)
    assert simulate(moved, ["key-matrix/rows-bridged/0-2"]).press("a", {"shift"}) == ((0.0, b"A"),)


def test_a_board_sends_what_its_keyboard_does():
    clock, board = CrankedClock(), Board(PROFILES["singlebyte-24x80"], ["key-matrix/key-bounces/q"])
    link = SimLink(board, clock)
    board.press("q")
    assert [received.data for received in link.read(0)] == [b"q"]
    came = link.read(1)
    assert [(received.at_s, received.data) for received in came] == [
        (pytest.approx(CONTACT_BOUNCE_S), b"q")
    ]
    board.chord(["a", "d", "s"])
    assert [data for _, data in board.take_sent()] == [b"a", b"d", b"s", b"f"]


def test_a_break_is_heard_as_one_and_neither_shown_nor_sent_in_local_mode():
    board = Board(PROFILES["singlebyte-24x80"])
    link = SimLink(board, CrankedClock())
    board.press("break")
    assert [(received.data, received.error) for received in link.read(0)] == [(b"\0", "break")]
    board.set_option("line", "local")
    before = board.screen()
    board.press("break")
    assert (link.read(0), board.screen()) == ((), before)
