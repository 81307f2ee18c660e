"""The matrix and the encoder of the simulated keyboard, against counting formulas, the code table, and the profile's own rules."""

import dataclasses
from itertools import combinations, product
from math import comb

import pytest
from hypothesis import given
from hypothesis import strategies as st

from termprobe.board.board import Board
from termprobe.board.encoder import encode
from termprobe.board.base import BREAK
from termprobe.board.keyboard import BOUNCE_S, CHORD_STEP_S, REPEAT_AFTER_S
from termprobe.board.matrix import Bridges, closed
from termprobe.board.keyboard_board import simulate
from termprobe.board.link import SimLink
from termprobe.board.hand_commands import obey
from termprobe.clock import CrankedClock
from termprobe.profile.key_codes import code_of
from termprobe.profile.load import load
from termprobe.profile.model import Key, Keyboard

NAMES = ("singlebyte-24x80", "ecma48-24x80")
PROFILES = {name: load(name) for name in NAMES}
STATES = [
    frozenset(held)
    for count in range(4)
    for held in combinations(("shift", "control", "lock"), count)
]


def crossings(rows, columns):
    return list(product(range(rows), range(columns)))


def ghosts(rows, columns, count, diodes=False, bridges=Bridges()):
    """Return the chords of `count` keys that close more crossings than their own."""
    return [
        chord
        for chord in combinations(crossings(rows, columns), count)
        if closed(chord, diodes, bridges) != set(chord)
    ]


# -- the matrix: counting formulas, by trying every chord ---------------------------------------------------------------


def test_two_keys_never_make_a_ghost_and_three_keys_of_a_3_by_4_matrix_do_in_72_of_220_chords():
    assert (comb(12, 2), len(ghosts(3, 4, 2))) == (66, 0)
    assert (comb(12, 3), len(ghosts(3, 4, 3))) == (220, 72)


@pytest.mark.parametrize(
    "rows, columns, expected", [(2, 2, 4), (2, 5, 40), (4, 4, 144), (5, 3, 120), (8, 8, 3136)]
)
def test_three_keys_make_a_ghost_in_four_chords_for_each_rectangle(rows, columns, expected):
    assert len(ghosts(rows, columns, 3)) == 4 * comb(rows, 2) * comb(columns, 2) == expected


@given(st.sets(st.sampled_from(crossings(4, 5)), max_size=9))
def test_without_diodes_the_closed_crossings_are_the_held_ones_with_every_rectangle_completed(held):
    completed = set(held)
    while True:
        more = {
            (row, column)
            for row, _ in completed
            for _, column in completed
            if any(
                (row, b) in completed and (a, b) in completed and (a, column) in completed
                for a, b in completed
            )
        }
        if more <= completed:
            break
        completed |= more
    assert closed(held, False) == completed


def test_a_ghost_masks_the_release_of_one_key():
    corners = {(0, 0), (0, 1), (1, 0), (1, 1)}
    assert closed(corners, False) == closed(corners - {(1, 1)}, False)


def test_with_diodes_no_chord_at_all_makes_a_ghost():
    assert all(not ghosts(3, 3, count, diodes=True) for count in range(1, 10))
    assert not ghosts(3, 4, 3, diodes=True)


@pytest.mark.parametrize("rows, columns", [(2, 2), (3, 4), (4, 4), (5, 3)])
def test_a_shorted_diode_shows_in_exactly_the_chords_where_it_is_the_corner_opposite_the_ghost(
    rows, columns
):
    shows = {
        diode: ghosts(rows, columns, 3, True, Bridges(shorted=frozenset({diode})))
        for diode in crossings(rows, columns)
    }
    for diode, chords in shows.items():
        assert len(chords) == (rows - 1) * (columns - 1)
        for chord in chords:
            (ghost,) = closed(chord, True, Bridges(shorted=frozenset({diode}))) - set(chord)
            assert diode in chord and ghost[0] != diode[0] and ghost[1] != diode[1]
    every = [chord for chords in shows.values() for chord in chords]
    assert len(set(every)) == len(
        every
    )  # no chord tests two diodes, so it takes one for each: rows times columns
    assert len({chords[0] for chords in shows.values()}) == rows * columns


def test_a_press_of_a_bridged_line_closes_both_with_diodes_or_without():
    for diodes in (False, True):
        assert closed({(1, 2)}, diodes, Bridges(rows=((1, 3),))) == {(1, 2), (3, 2)}
        assert closed({(1, 2)}, diodes, Bridges(columns=((0, 2),))) == {(1, 0), (1, 2)}


# -- the encoder --------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize("name", NAMES)
def test_a_healthy_keyboard_sends_for_every_key_in_every_state_what_the_profile_says(name):
    keys = simulate(PROFILES[name])
    for key in PROFILES[name].keyboard.keys:
        for state in STATES if key.role == "code" else [frozenset()]:
            expected = (
                [(0.0, BREAK)]
                if key.role == "break"
                else [
                    (0.0, code) for code in [code_of(PROFILES[name].keyboard, key, state)] if code
                ]
            )
            assert list(keys.press(key.name, state)) == expected, (key.name, state)


CODES = st.one_of(st.binary(min_size=1, max_size=1), st.just(b"\x1bOP"))
WRITTEN = st.one_of(st.none(), st.just("none"), CODES)
KEYS = st.builds(
    Key,
    name=st.just("k"),
    legend=st.just("k"),
    row=st.just(0),
    offset=st.just(0),
    code=CODES,
    shift=WRITTEN,
    control=WRITTEN,
    shift_control=WRITTEN,
)
KEYBOARDS = st.builds(
    Keyboard,
    pairing=st.sampled_from(["bit", "typewriter", "none"]),
    control=st.sampled_from(["and-1Fh", "xor-40h"]),
    letters=st.sampled_from(["both-cases", "upper-only"]),
    repeat=st.just("none"),
    rows=st.just(1),
    columns=st.just(1),
    diodes=st.booleans(),
    keys=st.just(()),
    source=st.just("unverified"),
    lock=st.sampled_from(["capitals", "shift"]),
)


@given(KEYBOARDS, KEYS, st.sampled_from(STATES))
def test_gates_and_rules_agree_for_any_key_of_any_keyboard(keyboard, key, state):
    formed = encode(keyboard, key, "shift" in state, "control" in state, "lock" in state)
    assert formed == (code_of(keyboard, key, state) or b"")


@pytest.mark.parametrize(
    "pairing, control, letters, lock",
    list(
        product(
            ("bit", "typewriter", "none"),
            ("and-1Fh", "xor-40h"),
            ("both-cases", "upper-only"),
            ("capitals", "shift"),
        )
    ),
)
def test_gates_and_rules_agree_for_all_codes(pairing, control, letters, lock):
    keyboard = Keyboard(pairing, control, letters, "none", 1, 1, False, (), "unverified", lock)
    for code, state in product(range(256), STATES):
        key = Key("k", "k", 0, 0, code=bytes([code]))
        assert encode(keyboard, key, "shift" in state, "control" in state, "lock" in state) == (
            code_of(keyboard, key, state) or b""
        )


# RFC 20, section 2: columns 2 to 5 of the code table, from row 0 to row 15, and the names of columns 0 and 1.
COLUMN_2, COLUMN_3 = " !\"#$%&'()*+,-./", "0123456789:;<=>?"
COLUMN_4, COLUMN_5 = "@ABCDEFGHIJKLMNO", "PQRSTUVWXYZ[\\]^_"
COLUMN_6, COLUMN_7 = "`abcdefghijklmno", "pqrstuvwxyz{|}~\x7f"


def pressed(legend_code, state):
    """Return what the bit-paired keyboard sends for the key whose code is `legend_code`."""
    keys = simulate(PROFILES["singlebyte-24x80"])
    key = next(
        key
        for key in PROFILES["singlebyte-24x80"].keyboard.keys
        if key.code == legend_code.encode()
    )
    return b"".join(data for _, data in keys.press(key.name, state)).decode()


def test_shift_pairs_the_signs_of_one_row_of_the_table():
    for low, high in [*zip(COLUMN_3[1:12], COLUMN_2[1:12]), *zip(",-./", "<=>?")]:
        assert pressed(low, {"shift"}) == high
        assert (COLUMN_2 + COLUMN_3).index(low) % 16 == (COLUMN_2 + COLUMN_3).index(high) % 16
    for low, high in zip(COLUMN_6[1:] + COLUMN_7[:11], COLUMN_4[1:] + COLUMN_5[:11]):
        assert pressed(low, {"shift"}) == high
    for high, low in zip("@[\\]^", "`{|}~"):
        assert pressed(high, {"shift"}) == low


def test_control_sends_the_character_that_stands_four_columns_before():
    for number, character in enumerate(COLUMN_4 + COLUMN_5):
        if character == "_":
            assert pressed("\x7f", {"shift", "control"}) == chr(
                number
            )  # _ is RUBOUT with SHIFT here
        else:
            assert pressed(character.lower(), {"control"}) == chr(number)


# -- time, chords, the line -----------------------------------------------------------------------------------------------


def test_codes_of_one_press_come_in_the_order_of_the_scan_column_by_column():
    keys = simulate(PROFILES["singlebyte-24x80"], ["key-matrix/columns-bridged/0-1"])
    assert [data for _, data in keys.press("2")] == [
        b"\x1b",
        b"2",
    ]  # row 0: column 0 is ESC, column 1 is 2
    (first_s, _), (second_s, _) = keys.press("2")
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
    assert (
        repeated[1][0] == REPEAT_AFTER_S
        and {data for _, data in repeated} == {b"a"}
        and len(repeated) == 9
    )  # 15 a second
    assert automatic.press("return", hold_s=1.0) == ((0.0, b"\r"),)
    assert by_key.press("a", hold_s=1.0) == ((0.0, b"a"),)
    assert len(by_key.press("a", {"repeat"}, hold_s=1.0)) == 15


def test_a_modifier_in_the_matrix_is_seen_by_the_scan_like_any_key():
    profile = PROFILES["singlebyte-24x80"]
    keys = tuple(
        dataclasses.replace(key, matrix=(0, 7)) if key.name == "left-shift" else key
        for key in profile.keyboard.keys
    )
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
        (pytest.approx(BOUNCE_S), b"q")
    ]
    obey(board, ":chord a d s")
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
