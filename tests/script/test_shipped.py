"""What the acceptance script demands before and of a board: the order of needs, and each limit."""

import pytest

from termprobe import yamlfile
from termprobe.script.load import load

SCRIPT = load("acceptance")
NEEDS = {
    "unpowered": [],
    "rails": ["unpowered"],
    "supply": ["rails"],
    "clock": ["supply"],
    "sync": ["clock"],
    "alone": ["sync"],
    "cable": ["supply"],
    "adapter": [],
    "link": [],
    "keyboard": [],
}
"""Stages whose needs are told by name; all others need the first character on the screen.

A supply is never switched on where a rail was found shorted.
"""
LIMITS = {
    "rail-5v-open": [(0.4, None)],  # below a junction of silicon is a short
    "supply-5v": [(5 * 0.95, 5 * 1.05)],
    "supply-12v": [(10, 12 * 1.05)],
    "supply-minus-12v": [(-12 * 1.05, -10)],
    "ripple-5v": [(None, 0.1)],
    "line-clock": [(16 * 0.98, 16 * 1.02)],  # for each baud
    "vertical-rate": [(50 - 1, 50 + 1), (60 - 1, 60 + 1)],
    "idle-level": [(-25, -5)],  # mark of a driver of RS-232, loaded or not
}
"""Step -> ranges, lowest and highest reading of each, by hand from what its source says."""


def test_each_stage_needs_what_could_harm_or_mislead_before_it():
    needs = {str(stage.id): [str(need) for need in stage.needs] for stage in SCRIPT.stages}
    others = dict.fromkeys(needs, ["first-character"])
    assert needs == others | NEEDS


def test_each_limit_is_what_its_source_says():
    steps = [step for stage in SCRIPT.stages for step in stage.steps if step.kind == "measure"]
    assert [step.id for step in steps] == list(LIMITS)
    for step in steps:
        found = [(one.low, one.high) for one in step.ranges or [step]]
        assert found == [pytest.approx(pair) for pair in LIMITS[step.id]], step.id


@pytest.mark.parametrize("script_id", yamlfile.shipped_ids("scripts"))
def test_no_question_is_cut_off(script_id):
    """In YAML a `#` behind a blank begins a comment, also in the middle of a sentence."""
    steps = [step for stage in load(script_id).stages for step in stage.steps]
    asked = [step.question for step in steps if getattr(step, "question", "")]
    assert [text for text in asked if not text.endswith(("?", "."))] == []
