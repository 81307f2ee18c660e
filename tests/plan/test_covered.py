"""Looks that others cover: which are asked if all goes well."""

import dataclasses

from helpers.bench import look, plan
from helpers.bench_plan import step
from termprobe.plan.covered import asked_of, covering_in, with_covering
from termprobe.plan.model import Ask, LineCheck


def ids(steps):
    return [one.id for one in steps]


def test_a_plan_gets_its_coverings_and_keeps_its_hashes():
    bare = plan(look("a"), look("b", covered_by=("z",)), step("c", "looks", "ask"))
    made = with_covering(bare, {"a": ("b",), "c": ("a",)})
    assert covering_in(made) == {"a": ("b",)} and covering_in(bare) == {"b": ("z",)}
    assert [one.hash for one in made.steps] == [one.hash for one in bare.steps]
    assert made.hash == bare.hash and isinstance(made.step("c"), Ask)
    assert covering_in(with_covering(made, {})) == {}


STEPS = (look("a"), look("b"), look("c", covered_by=("a", "b")), look("d", covered_by=("c",)))


def test_what_is_covered_is_spared_and_covers_nothing_itself():
    assert ids(asked_of(STEPS)) == ["a", "b", "d"]
    assert ids(asked_of(STEPS[1:])) == ["b", "c"], "a is not among them"


def test_what_has_passed_covers_and_what_is_left_open_does_not():
    assert ids(asked_of(STEPS[1:], {"a"})) == ["b", "d"]
    assert ids(asked_of(STEPS, left_open={"a"})) == ["a", "b", "c"]


def test_a_look_at_what_a_check_of_the_line_has_left_is_always_asked():
    check = LineCheck("busy", "looks", "Busy", check="host-sees-busy")
    made = plan(look("a"), check, dataclasses.replace(look("b"), continues=True), look("c"))
    assert covering_in(with_covering(made, {"b": ("a",), "c": ("a",)})) == {"c": ("a",)}


def test_a_look_with_an_option_where_it_seldom_stands_is_always_asked():
    normal, moved = (("rows", "24"),), (("rows", "12"),)
    looks = (
        look("a", settings=normal),
        look("b", settings=normal),
        look("half", settings=moved),
        look("again", settings=normal, continues=True),
        look("c", settings=normal),
    )
    made = plan(*looks)
    everything = dict.fromkeys(("b", "half", "again", "c"), ("a",))
    assert covering_in(with_covering(made, everything)) == {"b": ("a",), "c": ("a",)}
