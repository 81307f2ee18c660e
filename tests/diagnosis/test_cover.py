"""Smallest sets: against worked figures of test theory, and against trying every set."""

import itertools
import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from termprobe.board.faults.bus import bridged, stuck, swapped
from termprobe.diagnosis import cover as cover_module
from termprobe.diagnosis.cover import smallest_cover, smallest_separation


def bus_faults(lines=7):
    """Yield the single faults of a bus as functions: stuck, wired-AND, wired-OR, exchanged, and one line dominating another."""
    for line, level in itertools.product(range(lines), (0, 1)):
        yield lambda value, line=line, level=level: stuck(value, line, level)
    for first, second in itertools.combinations(range(lines), 2):
        for level in (0, 1):
            yield lambda value, a=first, b=second, level=level: bridged(value, a, b, level)
        yield lambda value, a=first, b=second: swapped(value, a, b)
    for first, second in itertools.permutations(range(lines), 2):
        yield lambda value, a=first, b=second: stuck(value, b, value >> a & 1)


def bus_tests():
    faults = list(bus_faults())
    assert len(faults) == 119
    return {
        chr(code): sum(1 << number for number, fault in enumerate(faults) if fault(code) != code)
        for code in range(0x21, 0x7F)
    }


def test_four_characters_show_every_fault_of_a_seven_line_bus():
    """Calculated elsewhere by an exact solver over printable characters: 4 detect all 119 faults, and 3 do not."""
    cover = smallest_cover(bus_tests())
    assert len(cover.tests) == 4 and cover.is_smallest


def test_five_characters_show_every_fault_of_a_seven_line_bus_twice():
    """Calculated elsewhere by an exact solver: 5 characters show every fault by two of them."""
    cover = smallest_cover(bus_tests(), times=2)
    assert len(cover.tests) == 5 and cover.is_smallest


def test_five_characters_tell_all_faults_of_a_seven_line_bus_apart_and_four_do_not():
    """Calculated elsewhere by an exact solver: 5 identify, for example # . 4 F Y, all 120 outcomes distinct; $ 2 U h gives 106."""
    faults = [lambda code: code, *bus_faults()]
    read_back = {chr(code): [fault(code) for fault in faults] for code in range(0x21, 0x7F)}

    def told_apart(characters):
        return len(set(zip(*(read_back[character] for character in characters))))

    cover = smallest_separation(read_back)
    assert len(cover.tests) == 5 and cover.is_smallest and told_apart(cover.tests) == 120
    assert told_apart("#.4FY") == told_apart("3<JUo") == 120 and told_apart("$2Uh") == 106


def test_tests_that_tell_nothing_apart_are_not_asked_for():
    assert smallest_separation({"same": (1, 1, 1)}).tests == ()
    assert smallest_separation({"same": (1, 1, 1), "first": (0, 1, 1), "all": (1, 2, 3)}).tests == (
        "all",
    )
    assert smallest_separation({"lone": (5,)}).tests == ()


def test_a_search_that_is_broken_off_still_covers_and_claims_no_more_than_it_proved(monkeypatch):
    monkeypatch.setattr(cover_module, "MAX_NODES", 10)
    cover = smallest_cover(bus_tests())
    assert 2 <= cover.lower_bound < len(cover.tests) and not cover.is_smallest


def test_greedy_loses_where_the_search_does_not():
    """The smallest example in which taking the largest set first needs three sets, and two are enough."""
    sets = {"A": {1, 2, 3, 4}, "B": {1, 3, 5}, "C": {2, 4, 6}}
    cover = smallest_cover(
        {name: sum(1 << one for one in members) for name, members in sets.items()}
    )
    assert cover.tests == ("B", "C") and cover.is_smallest


# The benchmark circuit ISCAS-85 c17: six NAND gates, five inputs, two outputs. Figures calculated elsewhere by exhaustion.


def c17(vector, fault=None):
    """Return the outputs for five input bits; `fault` is (line, level). Stems and branches of 3, 11 and 16 are lines of their own."""

    def level(line, value):
        return fault[1] if fault and fault[0] == line else value

    one, two, three, six, seven = (
        level(line, bit) for line, bit in zip(("1", "2", "3", "6", "7"), vector)
    )
    ten = level("10", 1 - (one & level("3>10", three)))
    eleven = level("11", 1 - (level("3>11", three) & six))
    sixteen = level("16", 1 - (two & level("11>16", eleven)))
    nineteen = level("19", 1 - (level("11>19", eleven) & seven))
    return (
        level("22", 1 - (ten & level("16>22", sixteen))),
        level("23", 1 - (level("16>23", sixteen) & nineteen)),
    )


C17_LINES = [
    "1",
    "2",
    "3",
    "6",
    "7",
    "10",
    "11",
    "16",
    "19",
    "22",
    "23",
    "3>10",
    "3>11",
    "11>16",
    "11>19",
    "16>22",
    "16>23",
]
C17_FAULTS = [(line, level) for line in C17_LINES for level in (0, 1)]
VECTORS = list(itertools.product((0, 1), repeat=5))


def test_the_benchmark_circuit_c17_needs_four_vectors_and_eight_to_see_each_fault_twice():
    signatures = {fault: tuple(c17(vector, fault) for vector in VECTORS) for fault in C17_FAULTS}
    assert len(C17_FAULTS) == 34 and len(set(signatures.values())) == 22
    tests = {
        vector: sum(
            1 << number
            for number, fault in enumerate(C17_FAULTS)
            if c17(vector, fault) != c17(vector)
        )
        for vector in VECTORS
    }
    assert len(smallest_cover(tests).tests) == 4 and smallest_cover(tests).is_smallest
    assert len(smallest_cover(tests, times=2).tests) == 8


def test_the_benchmark_circuit_c17_needs_six_vectors_to_name_the_fault_by_its_outputs_and_eight_by_pass_and_fail():
    outputs = {vector: [c17(vector, fault) for fault in (None, *C17_FAULTS)] for vector in VECTORS}
    by_outputs = smallest_separation(outputs)
    assert len(by_outputs.tests) == 6 and by_outputs.is_smallest
    failed = {
        vector: [output != good for output in rest] for vector, (good, *rest) in outputs.items()
    }
    by_failure = smallest_separation(failed)
    assert (
        len(by_failure.tests) == 8
        and by_failure.is_smallest
        and len(set(zip(*failed.values()))) == 21
    )


@pytest.mark.parametrize("nets", [4, 7])
def test_nets_need_as_many_vectors_as_the_formulas_of_interconnect_test_say(nets):
    """Shorts between N nets: log2 N vectors, rounded up; shorts, stuck and open nets: log2(N + 2); by all vectors there are."""
    pairs, levels = (
        list(itertools.combinations(range(nets), 2)),
        list(itertools.product(range(nets), (0, 1))),
    )
    shorts = {
        vector: [(vector >> a ^ vector >> b) & 1 for a, b in pairs] for vector in range(1 << nets)
    }
    stuck_too = {
        vector: shown + [vector >> net & 1 ^ level for net, level in levels]
        for vector, shown in shorts.items()
    }
    for shown, expected in (
        (shorts, math.ceil(math.log2(nets))),
        (stuck_too, math.ceil(math.log2(nets + 2))),
    ):
        cover = smallest_cover(
            {
                vector: sum(bit << place for place, bit in enumerate(bits))
                for vector, bits in shown.items()
            }
        )
        assert len(cover.tests) == expected and cover.is_smallest


@settings(max_examples=80, deadline=None)
@given(st.lists(st.integers(1, 2**7 - 1), min_size=1, max_size=7), st.sampled_from([1, 2]))
def test_no_smaller_set_would_do(masks, times):
    tests = dict(enumerate(masks))
    cover = smallest_cover(tests, times)
    counts = [sum(mask >> fault & 1 for mask in masks) for fault in range(7)]

    def meets(chosen):
        return all(
            sum(tests[name] >> fault & 1 for name in chosen) >= min(times, counts[fault])
            for fault in range(7)
        )

    assert meets(cover.tests)
    smallest = min(
        size
        for size in range(len(masks) + 1)
        if any(map(meets, itertools.combinations(tests, size)))
    )
    assert len(cover.tests) == smallest == cover.lower_bound


@settings(max_examples=60, deadline=None)
@given(st.lists(st.lists(st.integers(0, 2), min_size=5, max_size=5), min_size=1, max_size=6))
def test_no_smaller_set_would_tell_as_many_faults_apart(shown):
    outcomes = dict(enumerate(shown))

    def classes(chosen):
        return len(set(zip(*(outcomes[name] for name in chosen)))) if chosen else 1

    cover = smallest_separation(outcomes)
    smallest = min(
        size
        for size in range(len(shown) + 1)
        if any(
            classes(chosen) == classes(tuple(outcomes))
            for chosen in itertools.combinations(outcomes, size)
        )
    )
    assert (
        classes(cover.tests) == classes(tuple(outcomes))
        and len(cover.tests) == smallest == cover.lower_bound
    )


@pytest.mark.parametrize("rows, columns", [(3, 4), (8, 8), (5, 9)])
def test_a_matrix_needs_as_many_presses_as_its_longer_side(rows, columns):
    """Test theory: max(rows, columns) presses show every open row and column, a diagonal of the matrix."""
    tests = {
        (row, column): 1 << row | 1 << rows + column
        for row in range(rows)
        for column in range(columns)
    }
    cover = smallest_cover(tests)
    assert len(cover.tests) == max(rows, columns) and cover.is_smallest
