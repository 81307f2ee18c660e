"""The records of a script: what may be left out, and what then holds."""

import dataclasses

import pytest

from termprobe.errors import FileError
from termprobe.script.load import parse
from termprobe.script.model import Fragment

SHORTEST = """
id: try
title: A try
stages:
  - id: first
    title: First
    steps:
      - {id: word, kind: look, title: Word, question: Is it there?, send: [{text: AB}]}
"""


def only_step(text=SHORTEST):
    (stage,) = parse(text, "try.yaml").stages
    (step,) = stage.steps
    return step


def test_a_step_begins_on_a_fresh_screen_and_needs_nothing():
    step = only_step()
    assert (step.start, step.glances) == ("fresh", 4)
    assert step.needs == step.covered_by == () and step.settings == {}
    assert step.caution is step.stop_if is step.source is None


def test_a_fragment_is_sent_once_and_where_the_cursor_stands():
    (fragment,) = only_step().send
    assert fragment == Fragment(text="AB") and (fragment.times, fragment.at) == (1, ())


def test_with_is_the_argument_of_a_pattern():
    text = SHORTEST.replace("{text: AB}", '{pattern: solid, with: "*"}')
    assert only_step(text).send == (Fragment(pattern="solid", with_="*"),)


def test_a_script_has_no_cautions_unless_it_says_so():
    assert parse(SHORTEST, "try.yaml").cautions == {}


@pytest.mark.parametrize("key", ["id", "kind", "title"])
def test_a_step_must_say_what_it_is(key):
    step = next(line for line in SHORTEST.split("\n") if "kind: look" in line)
    broken = step.replace(f"{key}: ", f"no-{key}: ")
    with pytest.raises(FileError, match=key):
        parse(SHORTEST.replace(step, broken), "try.yaml")


def test_what_was_read_cannot_be_changed():
    with pytest.raises(dataclasses.FrozenInstanceError):
        only_step().title = "Another"
