"""The encoder of the simulated keyboard, against the code table and the profile's own rules."""

from itertools import combinations, product

import pytest
from hypothesis import given
from hypothesis import strategies as st

from termprobe.board.base import BREAK
from termprobe.board.encoder import encode
from termprobe.board.keyboard_board import simulate
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


@pytest.mark.parametrize("name", NAMES)
def test_a_healthy_keyboard_sends_for_every_key_in_every_state_what_the_profile_says(name):
    keys = simulate(PROFILES[name])
    for key in PROFILES[name].keyboard.keys:
        if key.role == "break":
            assert keys.press(key.name) == ((0.0, BREAK),)
            continue
        for state in STATES:
            code = code_of(PROFILES[name].keyboard, key, state)
            sent = [one.data for one in keys.press(key.name, state)]
            assert sent == [code] * bool(code), (key.name, state)


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


# RFC 20, section 2: columns 2 to 7 of the code table, from row 0 to row 15.
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
    digits = zip(COLUMN_3[1:12], COLUMN_2[1:12], strict=True)
    for low, high in [*digits, *zip(",-./", "<=>?", strict=True)]:
        assert pressed(low, {"shift"}) == high
        assert (COLUMN_2 + COLUMN_3).index(low) % 16 == (COLUMN_2 + COLUMN_3).index(high) % 16
    small, capital = COLUMN_6[1:] + COLUMN_7[:11], COLUMN_4[1:] + COLUMN_5[:11]
    for low, high in zip(small, capital, strict=True):
        assert pressed(low, {"shift"}) == high
    for high, low in zip("@[\\]^", "`{|}~", strict=True):
        assert pressed(high, {"shift"}) == low


def test_control_sends_the_character_that_stands_four_columns_before():
    for number, character in enumerate(COLUMN_4 + COLUMN_5):
        if character == "_":
            # _ is RUBOUT with SHIFT here
            assert pressed("\x7f", {"shift", "control"}) == chr(number)
        else:
            assert pressed(character.lower(), {"control"}) == chr(number)
