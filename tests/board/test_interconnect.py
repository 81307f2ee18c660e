"""What characters and whole screens can show of a faulty bus: the numbers of interconnect theory, from the board's own tables.

The numbers for the 7-line bus and for n address lines were worked out beforehand by exhaustive search, apart from this code.
"""

from itertools import combinations

import pytest

from termprobe.board.faults.catalogue import catalogue
from termprobe.board.faults.bus import bridged, stuck, swapped
from termprobe.board.wiring import wire
from termprobe.profile.load import load

PROFILE = load("singlebyte-24x80")
PRINTABLE = range(0x20, 0x7F)
UPPER = range(0x20, 0x60)


def dominated(value, strong, weak):
    """Return `value` from a bus whose line `weak` follows the line `strong`: a fault that the catalogue does not hold."""
    return stuck(value, weak, value >> strong & 1)


def line_faults(count):
    """Return {kind: functions} for all single faults of `count` lines."""
    pairs = list(combinations(range(count), 2))
    return {
        "stuck": [
            lambda value, line=line, level=level: stuck(value, line, level)
            for line in range(count)
            for level in (0, 1)
        ],
        "bridged": [
            lambda value, pair=pair, level=level: bridged(value, *pair, level)
            for pair in pairs
            for level in (0, 1)
        ],
        "swapped": [lambda value, pair=pair: swapped(value, *pair) for pair in pairs],
        "dominated": [
            lambda value, pair=pair: dominated(value, *pair)
            for pair in [*pairs, *[pair[::-1] for pair in pairs]]
        ],
    }


BUS = [function for functions in line_faults(7).values() for function in functions]


# -- the faults themselves, from their definitions ---------------------------------------------------------------------


@pytest.mark.parametrize("value", range(128))
def test_each_fault_of_a_line_is_what_its_name_says(value):
    bits = [value >> line & 1 for line in range(7)]
    for first, second in combinations(range(7), 2):
        ends = {
            swapped(value, first, second): (bits[second], bits[first]),
            bridged(value, first, second, 0): (bits[first] and bits[second],) * 2,
            bridged(value, first, second, 1): (bits[first] or bits[second],) * 2,
        }
        for result, (first_bit, second_bit) in ends.items():
            wanted = [*bits]
            wanted[first], wanted[second] = first_bit, second_bit
            assert [result >> line & 1 for line in range(7)] == wanted


def test_the_catalogue_applies_these_very_functions():
    named = {
        "receiver-data/stuck/3/1": lambda value: value | 8,
        "receiver-data/stuck/3/0": lambda value: value & ~8,
        "receiver-data/swapped/0-6": lambda value: value & 0x3E | value >> 6 | (value & 1) << 6,
        "receiver-data/bridged/0-1/low": lambda value: value if value & 3 in (0, 3) else value & ~3,
        "receiver-data/bridged/0-1/high": lambda value: value if value & 3 in (0, 3) else value | 3,
    }
    for name, function in named.items():
        wiring = wire(PROFILE)
        catalogue(PROFILE)[name].apply(wiring)
        assert list(wiring.buses["receiver-data"]) == [function(value) for value in range(128)], name


# -- the 7-line data bus: 14 stuck, 21 wired-AND, 21 wired-OR, 21 swapped, 42 dominated ---------------------------------


def shown_by(code):
    """Return, as bits of one number, which faults of the bus change `code`."""
    return sum((fault(code) != code) << number for number, fault in enumerate(BUS))


def outcomes(codes):
    """Return how many different things can come back for `codes`, the healthy bus included."""
    return len({tuple(fault(code) for code in codes) for fault in [*BUS, lambda value: value]})


def outcomes_of_pass_or_fail(codes):
    """Return how many patterns of right and wrong there can be for `codes`, all right included."""
    return len(
        {tuple(fault(code) != code for code in codes) for fault in [*BUS, lambda value: value]}
    )


def test_the_bus_has_119_faults():
    assert len(BUS) == 14 + 42 + 21 + 42 == 119


@pytest.mark.parametrize("text", ["$2Uh", "39I\\"])
def test_four_characters_show_every_fault(text):
    assert all(any(fault(code) != code for code in text.encode()) for fault in BUS)


def test_no_three_printable_characters_show_every_fault():
    shown = [shown_by(code) for code in PRINTABLE]
    everything = (1 << len(BUS)) - 1
    assert not any(a | b | c == everything for a, b, c in combinations(shown, 3))


@pytest.mark.parametrize("text", ["#.4FY", "3<JUo"])
def test_five_characters_read_back_tell_all_faults_apart_and_show_each_twice(text):
    assert outcomes(text.encode()) == 120
    assert all(sum(fault(code) != code for code in text.encode()) >= 2 for fault in BUS)


def test_four_characters_cannot_tell_all_apart():
    assert outcomes(b"$2Uh") == 106


def test_whether_characters_come_back_right_is_not_enough():
    """14 stuck lines and 21 pairs, whatever is wrong with a pair, and all right. In upper case bits 5 and 6 are opposites."""
    assert outcomes_of_pass_or_fail(range(128)) == 36
    assert outcomes_of_pass_or_fail(UPPER) == 34


# -- n address lines, the whole memory filled in ascending order, then looked at ----------------------------------------


def screen(lines, fault, tag, where):
    """Return what is seen of a memory of 2**lines cells filled with tag(address); the fault sits on the lines of `where`."""
    plain = range(1 << lines)
    table = [fault(address) for address in plain]
    cells = [None] * (1 << lines)
    for address, cell in enumerate(plain if where == "read" else table):
        cells[cell] = tag(address)
    return tuple([cells[cell] for cell in (plain if where == "write" else table)])


def parity(address):
    return address.bit_count() & 1


def address_faults(lines):
    kinds = line_faults(lines)
    return kinds["stuck"] + kinds["bridged"] + kinds["swapped"]


def seen_and_classes(lines, tag, where):
    """Return how many faults are seen, and how many different wrong screens there are."""
    healthy = screen(lines, lambda address: address, tag, "shared")
    wrong = [
        screen
        for screen in (screen(lines, fault, tag, where) for fault in address_faults(lines))
        if screen != healthy
    ]
    return len(wrong), len(set(wrong))


@pytest.mark.parametrize(
    "lines, where, seen, classes",
    [
        (11, "shared", 132, 121),
        (12, "shared", 156, 144),
        (11, "write", 187, 187),
        (11, "read", 187, 187),
    ],
)
def test_cells_with_a_tag_of_their_own(lines, where, seen, classes):
    assert seen_and_classes(lines, lambda address: address, where) == (seen, classes)


@pytest.mark.parametrize(
    "where, seen, classes", [("shared", 132, 121), ("write", 132, 132), ("read", 132, 77)]
)
def test_two_signs_laid_out_by_the_parity_of_the_address_show_all_but_swapped_lines(
    where, seen, classes
):
    """132 of 187: the parity of an address does not change when two of its bits change places."""
    assert len(address_faults(11)) == 187
    assert seen_and_classes(11, parity, where) == (seen, classes)


def test_two_signs_laid_out_by_one_bit_of_the_address_show_little():
    assert seen_and_classes(11, lambda address: address >> 5 & 1, "shared")[0] == 22


@pytest.mark.parametrize("prime", [61, 89])
def test_the_address_modulo_a_prime_shows_every_fault_that_can_be_seen(prime):
    assert seen_and_classes(11, lambda address: address % prime, "shared")[0] == 132
