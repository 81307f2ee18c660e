"""A script that asks for what no board could do."""

import pytest

from helpers.scripts import ECMA, SINGLE
from termprobe.plan.possible import check_possible
from termprobe.profile.model import Option
from termprobe.script.load import parse

HEAD = "id: try\ntitle: A try\nstages:\n  - id: s\n    title: S\n    steps:\n"


def findings(steps, profiles=(SINGLE, ECMA)):
    text = HEAD + f"      - {steps}\n"
    return [one.text for one in check_possible(parse(text, "try.yaml"), profiles, "try.yaml")]


def switch(option, position):
    return f"{{id: on, kind: switch, title: On, option: {option}, position: {position}}}"


def look(settings):
    send = "send: [{text: A}]"
    return f"{{id: a, kind: look, title: A, question: Is it?, {send}, settings: {settings}}}"


def test_what_a_profile_has_is_possible():
    assert findings(switch("duplex", "half")) == findings(look("{duplex: half}")) == []
    assert {option.name for option in SINGLE.options} >= {"duplex", "line"}
    assert isinstance(SINGLE.options[0], Option)


@pytest.mark.parametrize(
    "steps, words",
    [
        (switch("duplx", "half"), "an option of on must be one that a profile has, line, duplex"),
        (switch("duplx", "half"), 'not "duplx"; nearest is "duplex"'),
        (switch("duplex", "haalf"), "the position of duplex in on must be one that a profile has"),
        (switch("duplex", "haalf"), ', full, half, not "haalf"; nearest is "half"'),
        (look("{duplex: no}"), "the position of duplex in a must be one that a profile has"),
        (look("{sound: loud}"), "an option of a must be one that a profile has"),
    ],
)
def test_an_option_or_position_that_no_profile_has_is_a_finding(steps, words):
    (found,) = findings(steps)
    assert found.startswith("try.yaml:7:9: ") and words in found


def test_without_any_option_there_is_none_to_name():
    (found,) = findings(switch("duplex", "half"), profiles=())
    assert "one that a profile has, and none has any, not" in found


def test_a_script_without_stages_and_a_stage_without_steps_hold_nothing():
    empty = parse("id: try\ntitle: A try\nstages: []\n", "try.yaml")
    (found,) = check_possible(empty, [SINGLE], "try.yaml")
    assert found.text == "try.yaml:1:1: stages must hold at least one stage, not none"
    stage = "id: try\ntitle: A\nstages:\n  - {id: s, title: S, steps: []}\n"
    (found,) = check_possible(parse(stage, "try.yaml"), [SINGLE], "try.yaml")
    assert found.text == "try.yaml:4:5: steps of s must hold at least one step, not none"
