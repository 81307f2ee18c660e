"""What a plan proves, as plain data."""

import json
from dataclasses import replace

from helpers.coverage import FOUND, TOLD
from termprobe.diagnosis.smallest_steps import SmallestSteps
from termprobe.report.coverage_document import coverage_document


def test_each_fault_is_counted_once():
    found = coverage_document(TOLD)
    assert found["faults"] == 8 and found["detected"] == 3
    assert found["missed"] == ["scroll/line-not-cleared", "gate/stuck-open", "gate/stuck-closed"]
    assert found["undetectable"] == [
        {"fault": "ram/swapped/0-1", "why": "both are moved alike"},
        {"fault": "ram/swapped/0-2", "why": "it is so"},
    ]
    assert found["by_block"]["ram"] == {
        "faults": 4,
        "detected": 2,
        "undetectable": 2,
        "missed": 0,
    }
    assert list(found["by_block"]) == ["gate", "scroll", "ram"]


def test_it_holds_what_the_builder_spends_and_sees():
    found = coverage_document(TOLD)
    assert (found["looks"], found["presses"], found["seconds_of_builder"]) == (2, 2, 6.1)
    assert found["human_adjusted"] == 0.701 and found["seen_twice"] == 1
    assert found["by_visibility"]["line"]["faults"] == 3
    assert found["by_visibility"]["line"]["miss"] == 0.11


def test_the_smallest_set_is_in_steps_or_in_seconds():
    found = coverage_document(TOLD)
    assert found["smallest_set"] == ["look-1"] and found["smallest_by"] == "steps"
    assert found["smallest_cost"] == found["smallest_bound"] == 1
    timed = replace(FOUND, smallest=SmallestSteps(("look-1",), 2550, 2000))
    found = coverage_document(TOLD._replace(found=timed, weigh="seconds"))
    assert (found["smallest_cost"], found["smallest_bound"]) == (2.5, 2.0)


def test_it_can_be_written_down():
    assert json.loads(json.dumps(coverage_document(TOLD))) == coverage_document(TOLD)
