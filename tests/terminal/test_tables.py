"""What the decoder looks up: numbers, and the control sequences that they fit."""

import pytest

from termprobe.profile.load import load
from termprobe.profile.model import Coordinates
from termprobe.terminal.decoded import Decoded, Ignored
from termprobe.terminal.tables import LARGEST, CodeNode, Sequence, Tables

HOME, ADDRESS, UP = (load("ecma48-24x80").command(name) for name in ("home", "address", "up"))


def tables(coordinates, **sequences):
    found = {key.encode(): entries for key, entries in sequences.items()}
    return Tables(True, coordinates, CodeNode(), found)


@pytest.mark.parametrize(
    ("coordinates", "code", "number"),
    [
        (Coordinates("binary"), 7, 7),
        (Coordinates("offset", 0x20), 0x27, 7),
        (Coordinates("offset", 0x20), 0x07, 7 - 0x20),
        (Coordinates("bcd"), 0x23, 23),
        (Coordinates("bcd"), 0x2A, -1),
        (Coordinates("bcd"), 0xA2, -1),
    ],
)
def test_one_code_is_one_number(coordinates, code, number):
    assert tables(coordinates).coordinate(code) == number


@pytest.mark.parametrize(
    ("first", "numbers", "decoded"),
    [
        (0, [("row", 3), ("column", 5)], Decoded(ADDRESS, 3, 5)),
        (1, [("row", 3), ("column", 5)], Decoded(ADDRESS, 2, 4)),
        (1, [("column", None)], Decoded(ADDRESS, None, 0)),
        (1, [("count", 3)], Decoded(ADDRESS, count=3)),
        (1, [("count", None)], Decoded(ADDRESS)),
        (1, [("count", -9)], Decoded(ADDRESS, count=0)),
        (1, [], Decoded(ADDRESS)),
    ],
)
def test_numbers_are_written_in_as_their_slots_count(first, numbers, decoded):
    assert tables(Coordinates("binary", first=first)).filled(ADDRESS, numbers) == decoded


@pytest.mark.parametrize(
    ("parameters", "numbers", "fits"),
    [
        ((2,), [2], True),
        ((2,), [3], False),
        ((2,), [2, 7], True),
        ((0,), [None], True),
        ((0,), [], True),
        ((2, 0), [2], True),
        (("row", "column"), [None], True),
        (("row", 4), [9, 5], False),
    ],
)
def test_a_sequence_fits_the_numbers_that_it_demands(parameters, numbers, fits):
    assert Sequence(parameters, HOME).fits(numbers) is fits


def test_the_sequence_with_as_many_parameters_as_numbers_comes_first():
    found = tables(
        Coordinates("decimal", first=1),
        H=(Sequence((0,), HOME), Sequence(("row", "column"), ADDRESS)),
    )
    assert found.control_sequence(b"\x1b[H") == (Decoded(HOME),)
    assert found.control_sequence(b"\x1b[0;2H") == (Decoded(ADDRESS, 0, 1),)


def test_selective_parameters_are_taken_one_by_one():
    found = tables(Coordinates("decimal"), m=(Sequence((1,), HOME), Sequence((4,), UP)))
    codes = b"\x1b[4;9;1m"
    assert found.control_sequence(codes) == (Decoded(UP), Ignored(codes), Decoded(HOME))


@pytest.mark.parametrize("codes", [b"\x1b[4:1m", b"\x1b[?1H", b"\x1b[1 H", b"\x1b[", b"\x1b[1"])
def test_what_is_declared_nowhere_is_ignored_whole(codes):
    found = tables(Coordinates("decimal"), m=(Sequence((4,), UP),), H=(Sequence((1,), HOME),))
    assert found.control_sequence(codes) == (Ignored(codes),)


def test_a_number_is_never_larger_than_any_screen_needs():
    found = tables(Coordinates("decimal"), A=(Sequence(("count",), UP),))
    assert found.control_sequence(b"\x1b[" + b"9" * 90 + b"A") == (Decoded(UP, count=LARGEST),)
