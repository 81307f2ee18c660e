"""Steps out of order stand behind what they need, whatever that needs in turn."""

from helpers.bench import look, plan
from termprobe.plan.needed import behind_needs

PLAN = plan(
    look("rail"),
    look("first", needs=("rail",)),
    look("second", needs=("first",)),
    look("other", needs=("rail", "gone")),
    look("alone"),
)


def test_each_step_comes_behind_all_that_it_needs_and_none_twice():
    assert behind_needs(PLAN, ["second"]) == ("rail", "first", "second")
    assert behind_needs(PLAN, ["alone", "other", "second"]) == (
        "alone",
        "rail",
        "other",
        "first",
        "second",
    )


def test_what_the_plan_does_not_have_is_left_out():
    assert behind_needs(PLAN, ["nowhere", "alone"]) == ("alone",)
    assert behind_needs(PLAN, []) == ()
