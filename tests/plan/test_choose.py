"""A part of a plan is a plan too."""

import dataclasses

import pytest

from helpers.scripts import look, plan_of
from termprobe.errors import UsageError
from termprobe.plan.choose import choose, choose_stages, left_out, plan_hash
from termprobe.plan.model import Stage

PLAN = plan_of(
    [
        look("one", [{"text": "A"}]),
        look("two", [{"text": "B"}], start="keep", needs=["one"]),
        look("three", [{"text": "C"}], needs=["one"]),
    ]
)


def ids(plan):
    return [step.id for step in plan.steps]


def test_a_chosen_part_is_a_plan_and_brings_along_what_it_goes_on_from():
    assert ids(choose(PLAN, ["two"])) == ["one", "two"]
    part = choose(PLAN, ["three"])
    assert part.steps[0].needs == ()
    assert part.steps[0].hash == PLAN.steps[2].hash
    assert part.hash != PLAN.hash and part.hash == plan_hash(part.steps)
    assert part.index == {"three": 0}


def test_a_part_stands_in_plan_order_with_the_needs_that_are_in_it():
    part = choose(PLAN, ["three", "one"])
    assert ids(part) == ["one", "three"] and part.steps[1].needs == ("one",)


def test_all_steps_chosen_are_the_whole_plan():
    assert choose(PLAN, PLAN.index) == PLAN


def test_only_stages_with_a_step_are_left():
    assert choose_stages(PLAN, ["first"]) == PLAN
    assert choose(PLAN, []).stages == () and choose(PLAN, ["unheard-of"]).steps == ()


def test_a_stage_that_is_none_is_refused_with_the_nearest():
    with pytest.raises(UsageError, match='nearest is "first"'):
        choose_stages(PLAN, ["frst"])


def test_what_a_part_leaves_out_is_counted_without_what_is_not_fitted():
    part = choose(PLAN, ["one"])
    assert left_out(PLAN, part) == 2 and left_out(PLAN, PLAN) == 0
    lacking = tuple(dataclasses.replace(step, not_fitted="no bell") for step in PLAN.steps)
    assert left_out(dataclasses.replace(PLAN, steps=lacking), part) == 0


STAGES = plan_of([look("one", [{"text": "A"}])])
STAGES = dataclasses.replace(
    STAGES,
    stages=(
        Stage("first", "rows"),
        Stage("edges", "Edges of the screen"),
        Stage("edit", "Rows"),
    ),
    steps=tuple(
        dataclasses.replace(STAGES.steps[0], id=f"in-{stage}", stage=stage)
        for stage in ("first", "edges", "edit")
    ),
)


@pytest.mark.parametrize(
    "name", ["edges", "EDGES", "2", "Edges of the screen", " edges OF the Screen"]
)
def test_a_stage_is_called_by_id_number_or_title(name):
    assert ids(choose_stages(STAGES, [name])) == ["in-edges"]


@pytest.mark.parametrize("name", ["Rows", "4", "0", "", "edge"])
def test_a_name_that_is_none_or_several_lists_what_there_is(name):
    with pytest.raises(UsageError) as caught:
        choose_stages(STAGES, [name])
    lines = str(caught.value).split("\n")
    assert lines[0].startswith("--stage must be one of these, by number, id or title")
    assert ("calls 2 of them" in lines[0]) == (name == "Rows")
    assert lines[1:] == [
        "   1  first  rows",
        "   2  edges  Edges of the screen",
        "   3  edit   Rows",
    ]


def test_all_stages_but_those_skipped_are_left():
    assert ids(choose_stages(STAGES, [], ["edges"])) == ["in-first", "in-edit"]
    assert ids(choose_stages(STAGES, ["1", "2"], ["first"])) == ["in-edges"]


def test_a_stage_skipped_must_be_one_and_another_must_be_left():
    with pytest.raises(UsageError, match="^--skip-stage must be one of these"):
        choose_stages(STAGES, [], ["nowhere"])
    with pytest.raises(UsageError, match="must leave a stage to be tried, and leaves none"):
        choose_stages(STAGES, ["edges"], ["2"])
