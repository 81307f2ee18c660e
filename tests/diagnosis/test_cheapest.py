"""The cheapest choice that meets every want, against all choices there are."""

from itertools import product

import pytest
from hypothesis import given
from hypothesis import strategies as st

from termprobe.diagnosis import cheapest
from termprobe.diagnosis.cheapest import Want, cheapest_choice, strictest

ITEMS = 6


def meets(items, wants):
    return all((items & want.items).bit_count() >= want.least for want in wants)


@st.composite
def wants_of(draw):
    items = draw(st.integers(1, (1 << ITEMS) - 1))
    return Want(items, draw(st.integers(0, min(3, items.bit_count()))))


COSTS = st.lists(st.integers(1, 9), min_size=ITEMS, max_size=ITEMS)


@given(COSTS, st.lists(wants_of(), max_size=12))
def test_no_choice_is_cheaper(costs, wants):
    found = cheapest_choice(costs, wants)
    possible = [items for items in range(1 << ITEMS) if meets(items, wants)]
    cost = {items: sum(c for n, c in enumerate(costs) if items >> n & 1) for items in possible}
    assert meets(found.items, wants) and found.cost == cost[found.items] == min(cost.values())
    assert found.is_cheapest


@given(COSTS, st.lists(wants_of(), max_size=12))
def test_a_search_broken_off_still_meets_every_want_and_bounds_what_it_costs(costs, wants):
    usual = cheapest.MOST_NODES
    cheapest.MOST_NODES = 1
    try:
        found = cheapest_choice(costs, wants)
    finally:
        cheapest.MOST_NODES = usual
    best = cheapest_choice(costs, wants).cost
    assert meets(found.items, wants) and found.lower_bound <= best <= found.cost


@given(st.lists(wants_of(), max_size=12))
def test_the_strictest_wants_are_met_by_the_same_choices(wants):
    kept = strictest(wants)
    assert set(kept) <= set(wants)
    assert all(meets(items, kept) == meets(items, wants) for items in range(1 << ITEMS))


def test_twice_the_figures_of_a_textbook_circuit():
    """ISCAS-85 c17: 34 stuck-at faults; 4 vectors show each, 8 show each twice.

    All 32 vectors are tried on its six NAND gates.
    """
    vectors = list(product((0, 1), repeat=5))
    good = [c17(vector) for vector in vectors]
    signatures = set()
    for line, level in product(range(17), (0, 1)):
        shown = [c17(vector, line, level) for vector in vectors]
        differing = (1 << n for n, (a, b) in enumerate(zip(good, shown, strict=True)) if a != b)
        signatures.add(sum(differing))
    assert len(signatures) == 21, "so many can be told apart by which vectors fail"
    for times, fewest in ((1, 4), (2, 8)):
        found = cheapest_choice([1] * 32, [Want(items, times) for items in signatures])
        assert (found.cost, found.is_cheapest) == (fewest, True)


def c17(inputs, stuck=None, level=0):
    """Return the outputs of c17; its 17 lines are the 5 inputs, 6 gates and 6 branches."""

    def line(number, value):
        return level if number == stuck else value

    def nand(first, second):
        return 1 - (first & second)

    one, two, three, six, seven = (line(number, value) for number, value in enumerate(inputs))
    ten = line(5, nand(one, line(6, three)))
    eleven = line(7, nand(line(8, three), six))
    sixteen = line(9, nand(two, line(10, eleven)))
    nineteen = line(11, nand(line(12, eleven), seven))
    first = line(13, nand(ten, line(14, sixteen)))
    return first, line(15, nand(line(16, sixteen), nineteen))


def test_more_than_there_is_cannot_be_wanted():
    with pytest.raises(ValueError, match="as many items as it wants"):
        cheapest_choice([1, 1], [Want(0b11, 3)])


def test_parts_that_share_no_item_are_each_searched_to_the_end():
    """Forty triangles, any two corners of each: two each are needed, and a bound alone says one."""
    corners = [0b011, 0b101, 0b110]
    wants = [Want(pair << 3 * part, 1) for part in range(40) for pair in corners]
    found = cheapest_choice([2] * 120, wants)
    assert found.cost == found.lower_bound == 160 and meets(found.items, wants)
