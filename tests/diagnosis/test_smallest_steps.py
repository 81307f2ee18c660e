"""The smallest part of a plan, against every part there is, and against another's solver."""

import functools
import math
from itertools import combinations

import numpy
import pytest
from hypothesis import given
from hypothesis import strategies as st

from helpers import dictionaries
from helpers.scipy_parts import optimize
from helpers.scripts import SINGLE, acceptance, look, plan_of
from termprobe.diagnosis.cheapest import Want, cheapest_choice
from termprobe.diagnosis.cover import numbers_of, smallest_cover
from termprobe.diagnosis.coverage import one_each
from termprobe.diagnosis.showing import showing_of
from termprobe.diagnosis.smallest_steps import smallest_steps
from termprobe.plan.choose import choose
from termprobe.plan.effort import step_ms

ITEMS = 14
CHAINS = plan_of(
    [
        look("a", [{"text": "A"}]),
        look("b", [{"text": "B"}], start="keep"),
        look("c", [{"text": "C"}], start="keep"),
        look("d", [{"text": "D"}]),
        look("e", [{"text": "E"}], start="keep"),
        look("f", [{"text": "F"}]),
    ]
)
IDS = tuple(step.id for step in CHAINS.steps)


def by_solver(costs, wants):
    """Return what the cheapest choice costs, by scipy's milp (branch and cut of HiGHS)."""
    rows = [[want.items >> item & 1 for item in range(len(costs))] for want in wants]
    least = [want.least for want in wants]
    found = optimize().milp(
        numpy.array(costs, float),
        integrality=numpy.ones(len(costs)),
        bounds=optimize().Bounds(0, 1),
        constraints=optimize().LinearConstraint(numpy.array(rows, float), lb=least),
    )
    assert found.success
    return round(found.fun)


def by_greed(costs, wants):
    """Return what a choice costs that always takes the item that meets most for its cost."""
    chosen, left = 0, [want for want in wants if want.least]
    while left:
        free = [item for item in range(len(costs)) if not chosen >> item & 1]
        best = max(free, key=lambda item: sum(w.items >> item & 1 for w in left) / costs[item])
        chosen |= 1 << best
        left = [want for want in wants if (want.items & chosen).bit_count() < want.least]
    return sum(costs[item] for item in numbers_of(chosen))


@st.composite
def wants_of(draw, most=3):
    items = draw(st.integers(1, (1 << ITEMS) - 1))
    return Want(items, draw(st.integers(1, min(most, items.bit_count()))))


COSTS = st.lists(st.integers(1, 9000), min_size=ITEMS, max_size=ITEMS)


@given(COSTS, st.lists(wants_of(), min_size=1, max_size=40))
def test_a_choice_costs_what_the_solver_finds_and_no_more_than_greed(costs, wants):
    found = cheapest_choice(costs, wants)
    assert found.cost == found.lower_bound == by_solver(costs, wants)
    assert found.cost <= by_greed(costs, wants)


@given(st.lists(wants_of(most=1), min_size=1, max_size=40))
def test_a_smallest_cover_is_as_small_and_greed_no_worse_than_the_logarithm_allows(wants):
    """Greedy covers stay within H(n) of the smallest, n being what one item meets at most."""
    tests = {
        item: sum(1 << number for number, want in enumerate(wants) if want.items >> item & 1)
        for item in range(ITEMS)
    }
    least = by_solver([1] * ITEMS, wants)
    assert len(smallest_cover(tests).tests) == least
    most = max(tests.values(), key=int.bit_count).bit_count()
    harmonic = sum(1 / count for count in range(1, most + 1))
    assert least <= by_greed([1] * ITEMS, wants) <= math.floor(least * harmonic + 1e-9)


def test_where_greed_loses():
    """Six faults: one test shows four of them, two others three each, and these two are enough."""
    tests = (0b001111, 0b010101, 0b101010)
    wants = [
        Want(sum(1 << test for test, shown in enumerate(tests) if shown >> fault & 1), 1)
        for fault in range(6)
    ]
    assert by_greed([1, 1, 1], wants) == 3
    assert cheapest_choice([1, 1, 1], wants).cost == by_solver([1, 1, 1], wants) == 2


@functools.cache
def of_acceptance():
    plan = acceptance()
    return plan, showing_of(dictionaries.of_acceptance(), plan, SINGLE)


@pytest.mark.parametrize(
    "cost_of", [one_each, functools.partial(step_ms, character_s=10 / 9600)], ids=["steps", "ms"]
)
def test_the_smallest_part_of_acceptance_is_what_the_solver_finds(cost_of):
    """A step that goes on from others is one column with them, and costs what they cost too."""
    plan, showing = of_acceptance()
    found = smallest_steps(plan, showing.steps, showing.wants(), cost_of)
    ways = [[step.id for step in choose(plan, [each]).steps] for each in showing.steps]
    costs = [sum(cost_of(plan.step(step)) for step in way) for way in ways]
    wants = []
    for items, least in set(showing.wants()):
        named = {showing.steps[number] for number in numbers_of(items)}
        over = [number for number, way in enumerate(ways) if named & set(way)]
        wants.append(Want(sum(1 << number for number in over), least))
    assert found.cost == found.lower_bound == by_solver(costs, wants)
    assert found.cost <= by_greed(costs, wants)
    assert found.cost == sum(cost_of(plan.step(step)) for step in found.steps)


@given(
    st.lists(st.sets(st.sampled_from(range(6)), min_size=1), min_size=1, max_size=8),
    st.lists(st.integers(1, 9), min_size=6, max_size=6),
)
def test_no_part_with_all_that_its_steps_go_on_from_costs_less(shown_by, prices):
    price = dict(zip(IDS, prices, strict=True))
    wants = [Want(sum(1 << number for number in looks), 1) for looks in shown_by]
    found = smallest_steps(CHAINS, IDS, wants, lambda step: price[step.id])
    possible = [part for size in range(7) for part in combinations(IDS, size) if is_whole(part)]
    enough = [part for part in possible if shows(part, shown_by)]
    assert found.is_smallest and is_whole(found.steps) and shows(found.steps, shown_by)
    assert found.cost == min(sum(price[step] for step in part) for part in enough)


def is_whole(part):
    """Return whether each step has the one that it goes on from."""
    return {step.id for step in choose(CHAINS, part).steps} == set(part)


def shows(part, shown_by):
    return all(any(IDS[number] in part for number in looks) for looks in shown_by)
