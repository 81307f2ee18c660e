"""Commands become the bytes that the standards print."""

import dataclasses
import re

import pytest
from hypothesis import given
from hypothesis import strategies as st

from termprobe.notation import parse
from termprobe.profile.encode import coordinate_bytes, encode
from termprobe.profile.load import load
from termprobe.profile.model import Coordinates

SINGLE, ECMA_48 = load("singlebyte-24x80"), load("ecma48-24x80")

# ECMA-48, 5th edition: function, its section in 8.3, its coding with default or given parameters.
# "CSI" is ESC "[" (5.4).
ECMA_48_CODINGS = [
    ("bell", "8.3.3", "BEL", {}),
    ("backspace", "8.3.5", "BS", {}),
    ("tab", "8.3.60", "HT", {}),
    ("line-feed", "8.3.74", "LF", {}),
    ("return", "8.3.15", "CR", {}),
    ("up", "8.3.22", 'CSI "1A"', {}),
    ("up", "8.3.22", 'CSI "12A"', {"count": 12}),
    ("down", "8.3.19", 'CSI "2B"', {"count": 2}),
    ("right", "8.3.20", 'CSI "79C"', {"count": 79}),
    ("left", "8.3.18", 'CSI "1D"', {"count": 1}),
    ("home", "8.3.21", 'CSI "H"', {}),
    ("address", "8.3.21", 'CSI "5;10H"', {"row": 4, "column": 9}),
    ("address", "8.3.21", 'CSI "24;80H"', {"row": 23, "column": 79}),
    ("address-hvp", "8.3.63", 'CSI "1;1f"', {"row": 0, "column": 0}),
    ("index", "F.8.2", 'ESC "D"', {}),
    ("next-line", "8.3.86", 'ESC "E"', {}),
    ("reverse-index", "8.3.104", 'ESC "M"', {}),
    ("erase-to-end-of-display", "8.3.39", 'CSI "0J"', {}),
    ("erase-to-start-of-display", "8.3.39", 'CSI "1J"', {}),
    ("erase-display", "8.3.39", 'CSI "2J"', {}),
    ("erase-to-end-of-line", "8.3.41", 'CSI "0K"', {}),
    ("erase-to-start-of-line", "8.3.41", 'CSI "1K"', {}),
    ("erase-line", "8.3.41", 'CSI "2K"', {}),
    ("insert-character", "8.3.64", 'CSI "1@"', {}),
    ("delete-character", "8.3.26", 'CSI "3P"', {"count": 3}),
    ("insert-line", "8.3.67", 'CSI "1L"', {}),
    ("delete-line", "8.3.32", 'CSI "1M"', {}),
    ("tab-set", "8.3.62", 'ESC "H"', {}),
    ("tab-clear", "8.3.154", 'CSI "0g"', {}),
    ("tab-clear-all", "8.3.154", 'CSI "3g"', {}),
    ("plain", "8.3.117", 'CSI "0m"', {}),
    ("bold", "8.3.117", 'CSI "1m"', {}),
    ("underline", "8.3.117", 'CSI "4m"', {}),
    ("blink", "8.3.117", 'CSI "5m"', {}),
    ("reverse", "8.3.117", 'CSI "7m"', {}),
    ("report-status", "8.3.35", 'CSI "5n"', {}),
    ("report-cursor", "8.3.35", 'CSI "6n"', {}),
    ("identify", "8.3.24", 'CSI "0c"', {}),
]


@pytest.mark.parametrize("name, section, coding, values", ECMA_48_CODINGS)
def test_codings_are_those_of_ecma_48(name, section, coding, values):
    assert encode(ECMA_48, name, **values) == parse(coding.replace("CSI", 'ESC "["'))
    assert section in ECMA_48.command(name).source


def test_every_command_of_the_ecma_48_profile_is_in_the_table():
    assert {name for name, *_ in ECMA_48_CODINGS} == {command.name for command in ECMA_48.commands}


def test_a_cursor_report_is_the_one_that_ecma_48_gives():
    reply = ECMA_48.command("report-cursor").reply
    parts = {
        "row": coordinate_bytes(ECMA_48.coordinates, 23),
        "column": coordinate_bytes(ECMA_48.coordinates, 79),
    }
    data = b"".join(part if isinstance(part, bytes) else parts[part] for part in reply)
    assert data == bytes.fromhex("1B 5B 32 34 3B 38 30 52")  # CPR, 8.3.14: row 24, column 80


@pytest.mark.parametrize(
    "coding, offset, first, value, data",
    [
        ("binary", 0, 0, 0, b"\x00"),
        ("binary", 0, 1, 23, b"\x18"),
        ("offset", 0x20, 0, 79, b"o"),
        ("offset", 0x20, 1, 0, b"!"),
        ("decimal", 0, 1, 0, b"1"),
        ("decimal", 0, 0, 79, b"79"),
        ("decimal", 0, 1, 131, b"132"),
        ("bcd", 0, 0, 9, b"\x09"),
        ("bcd", 0, 0, 79, b"\x79"),
        ("bcd", 0, 1, 9, b"\x10"),  # as terminfo entries code it (cup)
    ],
)
def test_each_coding_of_coordinates(coding, offset, first, value, data):
    assert coordinate_bytes(Coordinates(coding=coding, offset=offset, first=first), value) == data


def test_a_command_without_a_slot_for_the_count_is_repeated():
    assert encode(SINGLE, "right", count=5) == b"\x0c" * 5
    assert encode(SINGLE, "address", 23, 79) == b"\x1b=7o"


def test_a_place_outside_the_screen_can_be_sent():
    assert encode(SINGLE, "address", 24, 80) == b"\x1b=8p"
    assert encode(ECMA_48, "address", 99, 999) == b"\x1b[100;1000H"


@pytest.mark.parametrize(
    "name, values, text",
    [
        ("claer", {}, 'command must be one of the profile singlebyte-24x80, not "claer"'),
        ("address", {"row": 1}, "address must be given a column"),
        ("bell", {"row": 1}, "bell must be given no row"),
        ("bell", {"count": 0}, "count of bell must be at least 1, not 0"),
        ("address", {"row": 0, "column": 96}, "column must fit in 7 data bits, not be 96"),
        ("address", {"row": -33, "column": 0}, "must not be negative"),
        ("address", {"row": 500, "column": 0}, "must fit in one byte"),
    ],
)
def test_what_cannot_be_written_is_refused(name, values, text):
    with pytest.raises(ValueError, match=re.escape(text)):
        encode(SINGLE, name, **values)


def test_bcd_ends_at_99():
    with pytest.raises(ValueError):
        coordinate_bytes(Coordinates(coding="bcd"), 100)


@given(row=st.integers(0, 94), column=st.integers(0, 94))
def test_different_places_have_different_bytes(row, column):
    for profile in (SINGLE, ECMA_48):
        data = encode(profile, "address", row, column)
        assert data != encode(profile, "address", column, row) or row == column
        assert data.startswith(profile.command("address").bytes[0])


def test_a_count_is_decimal_where_a_profile_has_no_coordinates():
    profile = dataclasses.replace(ECMA_48, coordinates=None)
    assert encode(profile, "up", count=10) == b"\x1b[10A"
