"""What characters and whole screens can show of a faulty bus.

These are the numbers of interconnect theory, from the board's own tables. Those for the 7-line bus
and for n address lines were worked out beforehand by exhaustive search, apart from this code.
"""

from functools import partial
from itertools import combinations, permutations, product

import pytest

from helpers.boards import PROFILE
from termprobe.board.faults.bus import bridged, stuck, swapped
from termprobe.board.faults.catalogue import catalogue
from termprobe.board.wiring import wire

PRINTABLE = range(0x20, 0x7F)
UPPER = range(0x20, 0x60)


def dominated(value, strong, weak):
    """Return `value` from a bus whose line `weak` follows the line `strong`.

    The catalogue does not hold this fault.
    """
    return stuck(value, weak, value >> strong & 1)


def line_faults(count):
    """Return {kind: functions} for all single faults of `count` lines."""
    lines, levels = range(count), (0, 1)
    pairs = list(combinations(lines, 2))
    held = product(lines, levels)
    touching = product(pairs, levels)
    return {
        "stuck": [partial(stuck, line=line, level=level) for line, level in held],
        "bridged": [
            partial(bridged, first=first, second=second, level=level)
            for (first, second), level in touching
        ],
        "swapped": [partial(swapped, first=first, second=second) for first, second in pairs],
        "dominated": [
            partial(dominated, strong=strong, weak=weak) for strong, weak in permutations(lines, 2)
        ],
    }


BUS = [function for functions in line_faults(7).values() for function in functions]


# -- the faults themselves, from their definitions -------------------------------------------------


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
        "receiver-data/bridged/0-1/low": lambda value: value & ~3 | 3 * (value & 3 == 3),
        "receiver-data/bridged/0-1/high": lambda value: value & ~3 | 3 * (value & 3 > 0),
    }
    for name, function in named.items():
        wiring = wire(PROFILE)
        catalogue(PROFILE)[name].apply(wiring)
        table = [function(value) for value in range(128)]
        assert list(wiring.buses["receiver-data"]) == table, name


# -- the 7-line data bus: 14 stuck, 21 wired-AND, 21 wired-OR, 21 swapped, 42 dominated ------------


def shown_by(code):
    """Return, as bits of one number, which faults of the bus change `code`."""
    return sum((fault(code) != code) << number for number, fault in enumerate(BUS))


def unchanged(value):
    return value


def outcomes(codes):
    """Return how many different things can come back for `codes`, the healthy bus included."""
    return len({tuple(map(fault, codes)) for fault in [*BUS, unchanged]})


def changes(fault, codes):
    """Return for each of the codes whether the fault changes it."""
    return tuple(fault(code) != code for code in codes)


def outcomes_of_pass_or_fail(codes):
    """Return how many patterns of right and wrong there can be for `codes`, all right included."""
    return len({changes(fault, codes) for fault in [*BUS, unchanged]})


def test_the_bus_has_119_faults():
    assert len(BUS) == 14 + 42 + 21 + 42 == 119


@pytest.mark.parametrize("text", ["$2Uh", "39I\\"])
def test_four_characters_show_every_fault(text):
    assert all(any(changes(fault, text.encode())) for fault in BUS)


def test_no_three_printable_characters_show_every_fault():
    shown = [shown_by(code) for code in PRINTABLE]
    everything = (1 << len(BUS)) - 1
    assert not any(a | b | c == everything for a, b, c in combinations(shown, 3))


@pytest.mark.parametrize("text", ["#.4FY", "3<JUo"])
def test_five_characters_read_back_tell_all_faults_apart_and_show_each_twice(text):
    assert outcomes(text.encode()) == 120
    assert all(sum(changes(fault, text.encode())) >= 2 for fault in BUS)


def test_four_characters_cannot_tell_all_apart():
    assert outcomes(b"$2Uh") == 106


def test_whether_characters_come_back_right_is_not_enough():
    """14 stuck lines and 21 pairs, whatever is wrong with a pair, and all right.

    In upper case bits 5 and 6 are opposites.
    """
    assert outcomes_of_pass_or_fail(range(128)) == 36
    assert outcomes_of_pass_or_fail(UPPER) == 34


# -- n address lines, the whole memory filled in ascending order, then looked at -------------------


def screen(lines, fault, tag, where):
    """Return what is seen of a memory of 2**lines cells filled with tag(address).

    The fault sits on the lines of `where`: write, read, or shared by both.
    """
    plain = list(range(1 << lines))
    table = [fault(address) for address in plain]
    written, shown = {"write": (table, plain), "read": (plain, table)}.get(where, (table, table))
    cells = [None] * (1 << lines)
    for address, cell in enumerate(written):
        cells[cell] = tag(address)
    return tuple(cells[cell] for cell in shown)


def parity(address):
    return address.bit_count() & 1


def address_faults(lines):
    kinds = line_faults(lines)
    return kinds["stuck"] + kinds["bridged"] + kinds["swapped"]


def seen_and_classes(lines, tag, where):
    """Return how many faults are seen, and how many different wrong screens there are."""
    healthy = screen(lines, unchanged, tag, "shared")
    screens = [screen(lines, fault, tag, where) for fault in address_faults(lines)]
    wrong = [one for one in screens if one != healthy]
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
    assert seen_and_classes(lines, unchanged, where) == (seen, classes)


@pytest.mark.parametrize(
    "where, seen, classes", [("shared", 132, 121), ("write", 132, 132), ("read", 132, 77)]
)
def test_two_characters_laid_out_by_the_parity_of_the_address_show_all_but_swapped_lines(
    where, seen, classes
):
    """132 of 187: the parity of an address does not change when two of its bits change places."""
    assert len(address_faults(11)) == 187
    assert seen_and_classes(11, parity, where) == (seen, classes)


def test_two_characters_laid_out_by_one_bit_of_the_address_show_little():
    assert seen_and_classes(11, lambda address: address >> 5 & 1, "shared")[0] == 22


@pytest.mark.parametrize("prime", [61, 89])
def test_the_address_modulo_a_prime_shows_every_fault_that_can_be_seen(prime):
    assert seen_and_classes(11, lambda address: address % prime, "shared")[0] == 132
