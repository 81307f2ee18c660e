"""Edges count where the step that went over them is proven, whatever chain it stands in."""

import dataclasses

from helpers.bench import look, plan
from termprobe.plan.edges import edges_tried
from termprobe.plan.model import Group
from termprobe.profile.load import load

PROFILE = load("singlebyte-24x80")


def sending(step_id, data, continues=False):
    return dataclasses.replace(look(step_id), groups=(Group(data, "x"),), continues=continues)


PLAN = plan(sending("a", b"\x08"), sending("b", b"A\x0b"), sending("c", b"\x08\x08", True))


def test_only_what_is_proven_counts():
    assert edges_tried(PROFILE, PLAN, {"a"}) == {"left"}
    assert edges_tried(PROFILE, PLAN, {"b"}) == {"up"}
    assert edges_tried(PROFILE, PLAN, ()) == frozenset()


def test_a_step_that_goes_on_begins_where_the_one_before_left_the_cursor():
    alone = plan(sending("c", b"\x08"))
    behind = plan(sending("b", b"A"), sending("c", b"\x08", continues=True))
    assert edges_tried(PROFILE, alone, {"c"}) == {"left"}
    assert edges_tried(PROFILE, behind, {"c"}) == frozenset()
