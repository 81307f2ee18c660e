"""Smallest sets: against worked figures of test theory, and against trying every set."""

import functools
import itertools
import math
import operator

import pytest
from hypothesis import given
from hypothesis import strategies as st

from helpers.examples import examples
from termprobe.board.faults.bus import bridged, stuck, swapped
from termprobe.diagnosis import cover as cover_module
from termprobe.diagnosis.cover import bits_of, smallest_cover, smallest_separation


def faults_shown(shows):
    """Return as bits the faults that a test shows, out of whether it shows each."""
    return bits_of(number for number, is_shown in enumerate(shows) if is_shown)


def told_apart(outcomes, tests):
    """Return how many different things the tests show; none show one."""
    if not tests:
        return 1
    return len(set(zip(*(outcomes[test] for test in tests), strict=True)))


def bus_faults(lines=7):
    """Yield the single faults of a bus as functions.

    They are: stuck, wired-AND, wired-OR, exchanged, and one line dominating another.
    """
    for line, level in itertools.product(range(lines), (0, 1)):
        yield lambda value, line=line, level=level: stuck(value, line, level)
    for first, second in itertools.combinations(range(lines), 2):
        for level in (0, 1):
            yield lambda value, a=first, b=second, level=level: bridged(value, a, b, level)
        yield lambda value, a=first, b=second: swapped(value, a, b)
    for first, second in itertools.permutations(range(lines), 2):
        yield lambda value, a=first, b=second: stuck(value, b, value >> a & 1)


def bus_tests():
    """Return character -> the faults of a bus that it shows."""
    faults, tests = list(bus_faults()), {}
    assert len(faults) == 119
    for code in range(0x21, 0x7F):
        tests[chr(code)] = faults_shown(fault(code) != code for fault in faults)
    return tests


def test_four_characters_show_every_fault_of_a_seven_line_bus():
    """Calculated elsewhere by an exact solver over printable characters.

    4 detect all 119 faults, and 3 do not.
    """
    cover = smallest_cover(bus_tests())
    assert len(cover.tests) == 4 and cover.is_smallest


def test_five_characters_tell_all_faults_of_a_seven_line_bus_apart_and_four_do_not():
    """Calculated elsewhere by an exact solver: 5 identify, all 120 outcomes distinct.

    For example # . 4 F Y; $ 2 U h gives 106.
    """
    faults = [lambda code: code, *bus_faults()]
    read_back = {}
    for code in range(0x21, 0x7F):
        read_back[chr(code)] = [fault(code) for fault in faults]
    cover = smallest_separation(read_back)
    assert len(cover.tests) == 5 and cover.is_smallest
    for five in (cover.tests, "#.4FY", "3<JUo"):
        assert told_apart(read_back, five) == 120
    assert told_apart(read_back, "$2Uh") == 106


def test_tests_that_tell_nothing_apart_are_not_asked_for():
    same = {"same": (1, 1, 1)}
    assert smallest_separation(same).tests == ()
    more = same | {"first": (0, 1, 1), "all": (1, 2, 3)}
    assert smallest_separation(more).tests == ("all",)
    assert smallest_separation({"lone": (5,)}).tests == ()


def test_a_search_that_is_broken_off_still_covers_and_claims_no_more_than_it_proved(monkeypatch):
    monkeypatch.setattr(cover_module, "MAX_NODES", 10)
    cover = smallest_cover(bus_tests())
    assert 2 <= cover.lower_bound < len(cover.tests) and not cover.is_smallest


def test_greedy_loses_where_the_search_does_not():
    """The smallest example in which taking the largest set first needs three sets.

    Two are enough.
    """
    sets = {"A": {1, 2, 3, 4}, "B": {1, 3, 5}, "C": {2, 4, 6}}
    cover = smallest_cover({name: bits_of(members) for name, members in sets.items()})
    assert cover.tests == ("B", "C") and cover.is_smallest


# The benchmark circuit ISCAS-85 c17: six NAND gates, five inputs, two outputs. Figures calculated
# elsewhere by exhaustion.


def c17(vector, fault=None):
    """Return the outputs for five input bits; `fault` is (line, level).

    Stems and branches of 3, 11 and 16 are lines of their own.
    """

    def level(line, value):
        return fault[1] if fault and fault[0] == line else value

    inputs = zip(("1", "2", "3", "6", "7"), vector, strict=True)
    one, two, three, six, seven = (level(line, bit) for line, bit in inputs)
    ten = level("10", 1 - (one & level("3>10", three)))
    eleven = level("11", 1 - (level("3>11", three) & six))
    sixteen = level("16", 1 - (two & level("11>16", eleven)))
    nineteen = level("19", 1 - (level("11>19", eleven) & seven))
    return (
        level("22", 1 - (ten & level("16>22", sixteen))),
        level("23", 1 - (level("16>23", sixteen) & nineteen)),
    )


STEMS = ("1", "2", "3", "6", "7", "10", "11", "16", "19", "22", "23")
BRANCHES = ("3>10", "3>11", "11>16", "11>19", "16>22", "16>23")
C17_FAULTS = [(line, level) for line in (*STEMS, *BRANCHES) for level in (0, 1)]
VECTORS = list(itertools.product((0, 1), repeat=5))


def c17_outputs():
    """Return vector -> its outputs, without a fault and with each of them."""
    outputs = {}
    for vector in VECTORS:
        outputs[vector] = [c17(vector, fault) for fault in (None, *C17_FAULTS)]
    return outputs


def test_the_benchmark_circuit_c17_needs_four_vectors():
    tests = {}
    for vector, (good, *faulty) in c17_outputs().items():
        tests[vector] = faults_shown(output != good for output in faulty)
    signatures = list(zip(*c17_outputs().values(), strict=True))[1:]
    assert len(signatures) == 34 and len(set(signatures)) == 22
    cover = smallest_cover(tests)
    assert len(cover.tests) == 4 and cover.is_smallest


def test_the_benchmark_circuit_c17_needs_six_vectors_to_name_the_fault_by_its_outputs():
    cover = smallest_separation(c17_outputs())
    assert len(cover.tests) == 6 and cover.is_smallest


def test_the_benchmark_circuit_c17_needs_eight_vectors_to_name_the_fault_by_pass_and_fail():
    failed = {}
    for vector, (good, *faulty) in c17_outputs().items():
        failed[vector] = [output != good for output in faulty]
    cover = smallest_separation(failed)
    assert len(cover.tests) == 8 and cover.is_smallest
    assert told_apart(failed, VECTORS) == 21


@pytest.mark.parametrize("nets", [4, 7])
def test_nets_need_as_many_vectors_as_the_formulas_of_interconnect_test_say(nets):
    """By all vectors there are, log2 rounded up.

    Shorts between N nets: log2 N vectors; shorts, stuck and open nets: log2(N + 2).
    """
    pairs = list(itertools.combinations(range(nets), 2))
    levels = list(itertools.product(range(nets), (0, 1)))
    shorts, stuck_too = {}, {}
    for vector in range(1 << nets):
        differing = [(vector >> a ^ vector >> b) & 1 for a, b in pairs]
        wrong = [vector >> net & 1 ^ level for net, level in levels]
        shorts[vector] = faults_shown(differing)
        stuck_too[vector] = faults_shown(differing + wrong)
    for tests, count in ((shorts, nets), (stuck_too, nets + 2)):
        cover = smallest_cover(tests)
        assert len(cover.tests) == math.ceil(math.log2(count)) and cover.is_smallest


@examples(80)
@given(st.lists(st.integers(1, 2**7 - 1), min_size=1, max_size=7))
def test_no_smaller_set_would_do(masks):
    tests = dict(enumerate(masks))
    cover = smallest_cover(tests)

    def shown(chosen):
        return functools.reduce(operator.or_, (tests[name] for name in chosen), 0)

    assert shown(cover.tests) == shown(tests)
    assert len(cover.tests) == cover.lower_bound == smallest(tests, shown)


def smallest(tests, shown):
    """Return the size of the smallest set that shows as much as all tests, by trying each set."""
    for size in range(len(tests) + 1):
        for chosen in itertools.combinations(tests, size):
            if shown(chosen) == shown(tuple(tests)):
                return size
    raise AssertionError("the set of all tests shows as much as itself")


@examples(60)
@given(st.lists(st.lists(st.integers(0, 2), min_size=5, max_size=5), min_size=1, max_size=6))
def test_no_smaller_set_would_tell_as_many_faults_apart(shown):
    outcomes = dict(enumerate(shown))

    def classes(chosen):
        return told_apart(outcomes, chosen)

    cover = smallest_separation(outcomes)
    assert classes(cover.tests) == classes(tuple(outcomes))
    assert len(cover.tests) == cover.lower_bound == smallest(outcomes, classes)


@pytest.mark.parametrize("rows, columns", [(3, 4), (8, 8), (5, 9)])
def test_a_matrix_needs_as_many_presses_as_its_longer_side(rows, columns):
    """Test theory: max(rows, columns) presses, a diagonal, show every open row and column."""
    crossings = itertools.product(range(rows), range(columns))
    tests = {(row, column): 1 << row | 1 << rows + column for row, column in crossings}
    cover = smallest_cover(tests)
    assert len(cover.tests) == max(rows, columns) and cover.is_smallest
