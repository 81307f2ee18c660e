"""The decoder's tables, and coordinates as codes."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from helpers.boards import PROFILE, changed, more
from termprobe.board.decoder import IDLE, NOTHING, STORED, build, coordinate, coordinate_code
from termprobe.board.wiring import wire
from termprobe.errors import UsageError
from termprobe.profile.model import Coordinates

STATES = build(PROFILE, wire(PROFILE))


def test_printable_codes_are_stored_and_others_do_what_the_profile_says_or_nothing():
    assert {STATES[IDLE][code] for code in range(0x20, 0x7F)} == {STORED}
    assert STATES[IDLE][0x07].command is PROFILE.command("bell")
    assert STATES[IDLE][0x00] is STATES[IDLE][0x7F] is NOTHING


def test_a_lead_in_is_a_state_in_which_a_code_that_completes_nothing_is_lost():
    state = STATES[IDLE][0x1B].next_state
    assert state != IDLE and STATES[state][0x41] is NOTHING
    address = STATES[state][ord("=")]
    assert (address.command.name, address.wanted) == ("address", ("row", "column"))


@pytest.mark.parametrize("coding", [("row", b"\x1b"), (b"\x1b\x80",), (b"\x1b[", "count", b"B")])
def test_a_coding_that_no_flip_flops_can_follow_is_refused(coding):
    profile = changed(PROFILE, commands=(more("far", coding, "down", "stay"),))
    with pytest.raises(UsageError, match="far: a simulated board needs a coding"):
        build(profile, wire(profile))


@given(
    st.sampled_from([Coordinates("binary"), Coordinates("offset", 0x20), Coordinates("bcd")]),
    st.integers(0, 79),
)
def test_a_coordinate_comes_back_from_its_code(coordinates, count):
    assert coordinate(coordinates, coordinate_code(coordinates, count)) == count


@pytest.mark.parametrize("code", [0x0A, 0xA0, 0xFF])
def test_a_code_with_a_digit_above_nine_is_no_bcd_coordinate(code):
    assert coordinate(Coordinates("bcd"), code) < 0
    assert coordinate(Coordinates("bcd", first=1), code) < 0


def test_rows_may_be_counted_from_1():
    assert coordinate(Coordinates("offset", 0x20, 1), 0x21) == 0
    assert coordinate_code(Coordinates("bcd", first=1), 9) == 0x10
