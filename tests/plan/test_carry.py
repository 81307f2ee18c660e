"""Which steps of an edited script or profile are still the same."""

import dataclasses

import pytest

from helpers.bench import look, screen_of
from helpers.bench_plan import step
from termprobe.plan.carry import EarlierStep, earlier_of, is_same
from termprobe.plan.earlier import NONE_EARLIER, EarlierForms
from termprobe.plan.model import Group

LOOK = look("a", settings=(("echo", "off"),))
RAIL = step("rail", "s", "measure", unit="V", low=4.75, high=5.25)
SWITCH = step("on", "s", "switch", option="echo", position="on")
NORMAL = {"echo": "off"}


def changed(before, **fields):
    return dataclasses.replace(before, hash="another", **fields)


@pytest.mark.parametrize(
    "before, fields",
    [
        (LOOK, {"groups": (Group(b"HELLO", "as before"),)}),
        (LOOK, {"groups": (LOOK.groups[0], Group(b"HELLA", LOOK.groups[1].label))}),
        (LOOK, {"expected": screen_of("HELLA")}),
        (LOOK, {"question": "Another one?"}),
        (LOOK, {"settings": (("echo", "on"),)}),
        (LOOK, {"continues": True}),
        (RAIL, {"low": 4.5}),
        (RAIL, {"high": None}),
        (RAIL, {"unit": "mV"}),
        (SWITCH, {"position": "off"}),
    ],
)
def test_what_sends_expects_asks_or_allows_something_else_is_another_step(before, fields):
    assert not is_same(changed(before, **fields), NORMAL, before, NORMAL)


@pytest.mark.parametrize(
    "fields",
    [
        {},
        {"title": "Another", "stage": "elsewhere", "needs": ("b",), "source": "a book"},
        {"caution": "Mind!", "stop_if": "hot", "covered_by": ("b",), "glances": 9},
        {"groups": tuple(dataclasses.replace(group, label="x") for group in LOOK.groups)},
        {"settings": ()},
    ],
)
def test_what_is_only_called_or_arranged_in_another_way_is_the_same(fields):
    assert is_same(changed(LOOK, **fields), NORMAL, LOOK, NORMAL)


def test_an_option_that_was_left_normal_stands_as_one_that_is_set_so():
    plain = changed(LOOK, settings=())
    assert not is_same(LOOK, NORMAL, plain, {"echo": "on"})
    assert is_same(plain, {"echo": "on"}, plain, NORMAL), "neither text moves it"


def test_a_step_of_another_kind_is_another_step():
    assert not is_same(step("a", "s", "ask"), {}, look("a", groups=()), {})


def test_hashes_of_what_is_the_same_are_kept_and_steps_that_are_gone_are_named():
    before = [
        EarlierStep(changed(LOOK, title="x"), "old", NORMAL),
        EarlierStep(LOOK, LOOK.hash, NORMAL),
        EarlierStep(changed(RAIL, low=4.5), "wide", NORMAL),
        EarlierStep(look("gone"), "gone", NORMAL),
    ]
    found = earlier_of([LOOK, RAIL], NORMAL, before)
    assert found == EarlierForms(same={"a": frozenset({"old"})}, gone=frozenset({"gone"}))


def test_without_earlier_texts_nothing_is_known_of_them():
    assert earlier_of([LOOK], NORMAL, [EarlierStep(LOOK, LOOK.hash, NORMAL)]) == NONE_EARLIER
