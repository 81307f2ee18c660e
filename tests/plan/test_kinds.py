"""Each kind of a script's steps becomes the record of the plan that bears its fields."""

import dataclasses
from typing import get_args, get_type_hints

import pytest

from helpers.scripts import ECMA, SINGLE
from termprobe.plan.kinds import OF_KIND, PRESSES, of_press
from termprobe.plan.model import Ask, Group, Look, Measure, NoPresses, Press, Switch, TypedBack
from termprobe.plan.presses import chord_presses, coded_presses
from termprobe.script.load import REQUIRED
from termprobe.script.model import ScriptStep


def scripted(kind, **fields):
    return ScriptStep(id="a", kind=kind, title="A", question="Is it so?", **fields)


def test_there_is_a_record_for_each_kind_that_a_script_may_have():
    kinds = set(get_args(get_type_hints(ScriptStep)["kind"]))
    assert OF_KIND.keys() == REQUIRED.keys() == kinds


@pytest.mark.parametrize("kind", sorted(OF_KIND.keys() - PRESSES.keys()))
def test_a_record_is_of_the_kind_and_has_what_all_begin_with(kind):
    record = OF_KIND[kind](scripted(kind, word="HELLO"))
    begun = (record.id, record.stage, record.title, record.question)
    assert record.kind == kind and begun == ("a", "", "A", "Is it so?")


@pytest.mark.parametrize(
    "record, step",
    [
        (
            Look("a", "", "A", "Is it so?", glances=2),
            scripted("look", glances=2, covered_by=("b",)),
        ),
        (Ask("a", "", "A", "Is it so?", glances=9), scripted("ask", glances=9)),
        (TypedBack("a", "", "A", "Is it so?", word="HI"), scripted("typed-back", word="HI")),
        (
            Measure("a", "", "A", "Is it so?", unit="V", low=4.75, high=None),
            scripted("measure", unit="V", low=4.75),
        ),
        (
            Switch("a", "", "A", "Is it so?", option="echo", position="on"),
            scripted("switch", option="echo", position="on"),
        ),
    ],
    ids=lambda one: one.kind,
)
def test_the_fields_of_its_kind_are_kept(record, step):
    assert OF_KIND[step.kind](step) == record


def test_keys_stand_for_single_presses_and_chords_for_those_of_diodes():
    assert PRESSES["keys"].of(SINGLE) == coded_presses(SINGLE)
    assert PRESSES["chords"].of(ECMA) == chord_presses(ECMA) != ()


def test_a_press_has_a_step_of_its_own_with_what_is_said_of_all():
    of_all = NoPresses(
        id="keys",
        stage="keyboard",
        title="Keys",
        question="Press it.",
        groups=(Group(b"\x1a", "clear"),),
        settings=(("echo", "on"),),
        needs=("power",),
        not_fitted="no keyboard",
        caution="Mains.",
        stop_if="it smokes",
        source="made up",
        continues=True,
    )
    press = Press("press/a", "a", "A", (), b"a", asked='"A"', sends='"a"')
    step = of_press(of_all, press)
    assert (step.id, step.title, step.press) == ("press/a", press.title, press)
    own = ("id", "title", "hash")
    for field in dataclasses.fields(NoPresses):
        if field.name not in own:
            assert getattr(step, field.name) == getattr(of_all, field.name), field.name
