"""The order of steps: no other one that is allowed moves fewer switches."""

import itertools

from hypothesis import given
from hypothesis import strategies as st

from helpers.examples import examples
from helpers.scripts import SINGLE
from termprobe.plan.arrange import moved, ordered
from termprobe.plan.compile import compile_plan
from termprobe.plan.model import Look, Switch
from termprobe.script.load import parse


def step(step_id, *positions, needs=(), **fields):
    """Return a look that wants (option, position) each."""
    return Look(step_id, "s", step_id, settings=positions, needs=needs, **fields)


FULL, HALF = ("duplex", "full"), ("duplex", "half")


def ids(steps):
    return "".join(one.id for one in steps)


def test_the_steps_of_a_stage_are_sorted_by_switch_position_with_needs_respected():
    steps = [
        step("a", FULL),
        step("b", HALF),
        step("c", FULL),
        step("d", HALF, needs=("c",)),
        step("e", HALF, continues=True),
    ]
    assert ids(ordered(steps)) == "acbde"
    assert ids(ordered([step("x", HALF, needs=("y",)), step("y", FULL)])) == "yx"


def test_steps_that_wait_for_each_other_keep_the_written_order():
    steps = [step("x", needs=("y",)), step("y", needs=("x",))]
    assert ids(ordered(steps)) == "xy"


def test_a_switch_is_moved_once_for_all_that_want_it_there():
    switch = Switch("s", "s", "s", option="duplex", position="half")
    steps = [step("a", FULL), switch, step("b", HALF), step("c", FULL)]
    assert moved(steps, {}) == (3, {"duplex": "full"})
    assert moved(steps, {"duplex": "full"})[0] == 2
    assert moved([step("a", HALF, not_fitted="no")], {"duplex": "full"}) == (0, {"duplex": "full"})


@st.composite
def steps_with_needs(draw):
    """Draw steps of which each wants one option or two, and may need or go on from those before."""
    steps = []
    for number in range(draw(st.integers(1, 5))):
        options = "ab"[: draw(st.integers(1, 2))]
        positions = [(option, draw(st.sampled_from(["on", "off"]))) for option in options]
        needs = ()
        if steps:
            needs = tuple(draw(st.sets(st.sampled_from([one.id for one in steps]))))
        continues = draw(st.booleans())
        steps.append(step(str(number), *positions, needs=needs, continues=continues))
    return steps


@examples(150)
@given(steps_with_needs(), st.sampled_from([{}, {"a": "on", "b": "on"}]))
def test_no_other_order_needs_fewer_changes_of_switches(steps, start):
    going_on = [
        (before.id, after.id) for before, after in itertools.pairwise(steps) if after.continues
    ]
    needs = [(need, one.id) for one in steps for need in one.needs]

    def is_allowed(order):
        index = {one.id: number for number, one in enumerate(order)}
        are_met = all(index[need] < index[one] for need, one in needs)
        return are_met and all(index[after] == index[before] + 1 for before, after in going_on)

    allowed = [order for order in itertools.permutations(steps) if is_allowed(order)]
    found = ordered(steps, start)
    assert is_allowed(found)
    assert moved(found, start)[0] == min(moved(order, start)[0] for order in allowed)


TWO_STAGES = """
id: try
title: A try
stages:
  - id: one
    title: One
    steps:
      - {id: a, kind: ask, title: A, question: Q, settings: {duplex: half}}
  - id: two
    title: Two
    steps:
      - {id: b, kind: ask, title: B, question: Q}
      - {id: c, kind: ask, title: C, question: Q, settings: {duplex: half}}
"""


def test_a_stage_begins_with_the_switches_as_the_one_before_left_them():
    plan = compile_plan(SINGLE, parse(TWO_STAGES, "try.yaml"))
    assert ids(plan.steps) == "acb"
