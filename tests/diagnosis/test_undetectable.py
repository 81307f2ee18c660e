"""Faults that make no difference: what each rule says, against boards that are sent anything.

The rules stand in proof_display.py and proof_keyboard.py, on the records of proof.py.
"""

import dataclasses
import functools

import pytest
from hypothesis import given
from hypothesis import strategies as st

from helpers.boards import changed, more
from helpers.examples import one_in
from helpers.scripts import SINGLE
from termprobe.board.board import Board
from termprobe.board.faults.catalogue import catalogue
from termprobe.board.wiring import wire
from termprobe.diagnosis.proof import Rewired
from termprobe.diagnosis.undetectable import undetectable, why_alike

BLANK = {"power_up": "blank"}
"""What RAM holds at power-up is chance, and would differ from one good board to the next."""


def without(profile, *actions):
    """Return `profile` without the commands that do these."""
    kept = tuple(command for command in profile.commands if command.action not in actions)
    return dataclasses.replace(profile, commands=kept)


def with_keys(profile, keep=lambda key: True, **rules):
    """Return `profile` with some of its keys, and other rules for them."""
    keys = tuple(key for key in profile.keyboard.keys if keep(key))
    keyboard = dataclasses.replace(profile.keyboard, keys=keys, **rules)
    return dataclasses.replace(profile, keyboard=keyboard)


USUAL = changed(SINGLE, display=BLANK)
SMALL = changed(SINGLE, display=BLANK | {"rows": 16, "columns": 64})
SIMPLE = without(changed(SINGLE, display=BLANK | {"rows": 12}), "up", "left")
TWINS = changed(
    SINGLE, commands=[more("line-feed", [b"\x05"], "down", edge="scroll")], display=BLANK
)
ONE_COLUMN = with_keys(USUAL, lambda key: not key.matrix or key.matrix[1] == 0, diodes=True)
NO_SHIFT = with_keys(USUAL, lambda key: key.name in ("tab", "escape", "return", "left"))
DIODES = with_keys(USUAL, diodes=True)
NO_KEYS = with_keys(USUAL, lambda key: key.role != "code")
PROFILES = {
    "usual": USUAL,
    "small": SMALL,
    "simple": SIMPLE,
    "twins": TWINS,
    "one-column": ONE_COLUMN,
    "no-shift": NO_SHIFT,
    "diodes": DIODES,
    "no-keys": NO_KEYS,
}


@functools.cache
def found_for(name):
    """Return {fault: why} of those that are called undetectable for the profile of that name."""
    profile = PROFILES[name]
    return undetectable(profile, catalogue(profile).values())


@functools.cache
def cases():
    """Return (profile, fault) of each that is called undetectable."""
    return [(name, fault) for name in PROFILES for fault in found_for(name)]


def of_block(profile, where):
    return {fault for fault in found_for(profile) if fault.startswith(where)}


SWAPPED = {
    f"{bus}-address/swapped/{first}-{second}"
    for bus in ("ram", "bank-0", "bank-1")
    for second in range(11)
    for first in range(second)
}


def test_of_the_shipped_board_they_are_exchanged_addresses_and_a_clear_that_is_stored():
    dark_anyway = {"decoder/also-written/clear", "shift-register/stuck/5/0"}
    assert set(found_for("usual")) == SWAPPED | dark_anyway
    assert "drawn otherwise" in found_for("usual")["shift-register/stuck/5/0"]
    assert "moved alike" in found_for("usual")["ram-address/swapped/3-9"]
    assert "blanks the whole screen" in found_for("usual")["decoder/also-written/clear"]


def test_address_lines_that_carry_one_level_on_a_small_screen():
    """Of 16 rows and 64 columns, column bit 6 and row bit 10 are 0 throughout."""
    found = of_block("small", "ram-address")
    assert {"ram-address/stuck/6/0", "ram-address/stuck/6/1"} <= found
    assert {"ram-address/stuck/10/0", "ram-address/bridged/6-10/low"} <= found
    # With 0 on line 6, the line that wins takes the loser's place: nothing is lost.
    assert "ram-address/bridged/2-6/high" in found
    assert not {"ram-address/stuck/5/0", "ram-address/bridged/2-6/low"} & found
    assert "no row or column" in found_for("small")["ram-address/stuck/6/0"]
    assert "no row or column" in found_for("small")["row-counter/stuck/4/0"]
    assert "row-counter/stuck/4/1" not in found_for("small")


def test_carries_beyond_the_screen_and_borrows_that_no_command_asks_for():
    assert of_block("small", "row-counter") >= {"row-counter/carry-lost/4"}
    assert "column-counter/carry-lost/6" in found_for("small")
    assert "column-counter/carry-lost/5" not in found_for("small")
    borrows = {f"column-counter/borrow-lost/{line}" for line in (4, 5, 6)}
    assert borrows <= set(found_for("simple")) and not borrows & set(found_for("usual"))


def test_two_commands_that_do_the_same():
    found = of_block("twins", "decoder")
    assert {"decoder/swapped/down-line-feed", "decoder/acts-as/down-line-feed"} <= found
    assert not any("return" in fault or "dead" in fault for fault in found)
    why = found_for("twins")["decoder/swapped/down-line-feed"]
    assert why == "the commands do exactly the same"


def test_lines_without_keys_diodes_without_corners_modifiers_without_codes():
    assert {
        *("key-matrix/column-open/3", "key-matrix/columns-bridged/0-3"),
        *("key-matrix/columns-swapped/1-2", "key-matrix/diode-shorted/3-0"),
    } <= set(found_for("one-column"))
    assert not {
        *("key-matrix/column-open/0", "key-matrix/columns-swapped/0-3"),
        *("key-matrix/rows-bridged/0-1", "key-matrix/row-open/1"),
    } & set(found_for("one-column"))
    assert {"key-matrix/shift-dead", "key-matrix/shift-stuck"} <= set(found_for("no-shift"))
    assert "key-matrix/shift-dead" not in found_for("usual")
    assert not of_block("diodes", "key-matrix")


def test_a_terminal_that_never_sends():
    found = of_block("no-keys", "transmitter-data")
    assert len(found) == 77 and {"parity/inverted", "echo-gate/stuck-closed"} <= set(
        found_for("no-keys")
    )
    answering = dataclasses.replace(
        NO_KEYS, commands=(*NO_KEYS.commands, more("ask", [b"\x05"], "reply", reply=(b"A",)))
    )
    found = undetectable(answering, catalogue(answering).values())
    assert "transmitter-data/stuck/0/1" not in found and "echo-gate/stuck-closed" in found


def test_what_several_faults_change_together_is_not_proven_by_a_rule_for_one():
    faulty = wire(USUAL)
    for name in ("ram-address/swapped/0-1", "decoder/also-written/clear"):
        catalogue(USUAL)[name].apply(faulty)
    assert why_alike(Rewired(USUAL, wire(USUAL), faulty)) == ""


def bytes_for(profile):
    """Return a strategy of bytes: anything, and what the terminal obeys or prints."""
    codes = [bytes(command.bytes[0]) for command in profile.commands]
    pieces = st.one_of(
        st.binary(min_size=1, max_size=6),
        st.sampled_from(codes),
        st.builds(lambda row, column: b"\x1b=" + bytes([row, column]), CODE, CODE),
        st.builds(lambda code, count: bytes([code]) * count, CODE, st.integers(1, 200)),
    )
    return st.lists(pieces, max_size=12).map(b"".join)


CODE = st.integers(0x1F, 0x7F)


def hands_for(profile):
    """Return a strategy of what hands do: a key with modifiers, keys held together, a switch."""
    keys = [str(key.name) for key in profile.keyboard.keys]
    modifiers = st.sets(st.sampled_from(["shift", "control", "lock"]))
    positions = [(str(o.name), place) for o in profile.options for place in o.positions]
    return st.one_of(
        st.tuples(st.just("press"), st.sampled_from(keys), modifiers),
        st.tuples(st.just("chord"), st.lists(st.sampled_from(keys), max_size=5, unique=True)),
        st.sampled_from([("set_option", *position) for position in positions]),
    )


def shown(board, deeds):
    """Return what is seen and heard of `board` after each of `deeds`."""
    told = []
    for deed, *given_to_it in deeds:
        getattr(board, deed)(*given_to_it)
        told.append((board.screen(), board.take_sent()))
    return told


@given(st.data())
def test_no_stream_of_bytes_and_no_key_shows_one(data):
    name, fault = data.draw(st.sampled_from(cases()))
    profile = PROFILES[name]
    received = bytes_for(profile).map(lambda stream: ("receive", stream))
    deeds = data.draw(st.lists(st.one_of(received, hands_for(profile)), max_size=10))
    assert shown(Board(profile, [fault]), deeds) == shown(Board(profile), deeds), (name, fault)


@pytest.mark.parametrize("name", PROFILES)
def test_each_of_them_stands_a_long_fill_and_every_command(name):
    """All cells twice, each with a code of its own kind, and all commands between."""
    profile = PROFILES[name]
    cells = profile.display.rows * profile.display.columns
    commands = [bytes(command.bytes[0]) + b'"3' for command in profile.commands]
    fill = bytes(0x21 + index % 89 for index in range(cells - 1))
    deeds = [("receive", part) for part in (fill, *commands, fill[5:], b"\n\n", *commands)]
    good = shown(Board(profile), deeds)
    for fault in one_in(6, found_for(name)):
        assert shown(Board(profile, [fault]), deeds) == good, fault
