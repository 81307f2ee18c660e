"""One line for one cause."""

import dataclasses
import json

from helpers import reports
from termprobe.diagnosis.key_conclusion import Suspect
from termprobe.diagnosis.model import Diagnosis
from termprobe.journal.known_fault import KnownFault
from termprobe.report.causes import CommonCause, common_causes
from termprobe.report.formats import json as json_format
from termprobe.report.formats import markdown, text
from termprobe.verdict.model import AsWithFault, RunVerdict

STUCK = "bank-0-data/stuck/2/0"
TITLE = "line 2 stuck at 0"
FAILED = [reports.step("fail", name) for name in ("a", "b", "c")]


def diagnosis(*supports, is_explained=True):
    suspect = Suspect((STUCK, "x/y"), TITLE, "bank-0-data", 0.97, supports, ())
    return Diagnosis("fail", is_explained, (suspect,))


def run_report(steps, faults=(), found=None):
    made = reports.report(*steps)
    verdict = RunVerdict("fail", tuple(steps), known_faults=faults)
    return dataclasses.replace(made, verdict=verdict, diagnosis=found)


def test_what_the_suspect_explains_is_one_cause_and_the_rest_is_not():
    verdict = RunVerdict("fail", tuple(FAILED))
    assert common_causes(verdict, diagnosis("a", "c", "passed")) == (
        CommonCause(STUCK, TITLE, ("a", "c")),
    )
    assert common_causes(verdict, diagnosis("a")) == ()
    assert common_causes(verdict, diagnosis("a", "b", is_explained=False)) == ()
    assert common_causes(verdict, None) == ()


def test_the_report_tells_it_in_one_line_with_one_step_and_all_else_by_itself():
    told = run_report(FAILED, found=diagnosis("a", "b"))
    page = text.page(told)
    assert f"1. **{TITLE}** (97 %): 2 steps failed by it." in markdown.render([told])
    assert f"  1  {TITLE} (97 %): 2 steps failed by it. Next: mend it, then run\n" in page
    assert "  2  A step: 1 step failed by it. Next: " in page
    assert "    FAIL       1 more by a cause that is told above" in page
    assert page.count("    FAIL       A step") == 2


def test_known_faults_stand_in_headline_report_and_json():
    explained = [dataclasses.replace(step, known_fault=STUCK) for step in FAILED[:2]]
    passed = reports.step("pass", "d", because=AsWithFault((STUCK,)))
    steps = [*explained, FAILED[2], passed]
    made = run_report(steps, (KnownFault(STUCK, (), TITLE, ("a", "b")),), diagnosis("a", "b", "c"))
    assert made.causes == (CommonCause(STUCK, TITLE, ("a", "b")),)
    page = text.page(made)
    assert page.startswith("FAIL (WITH KNOWN FAULT): board 0042 failed 3 of 4 steps, 2")
    assert "Known fault, with which the run went on" in page
    assert f"as expected with known fault {STUCK}" in page.replace("\n" + " " * 15, " ")
    document = json.loads(json_format.render([made]))
    assert document["known_faults"][0]["fault"] == STUCK and document["verdict"] == "fail"
    assert document["known_faults"][0]["class"] == [STUCK]
    assert document["known_faults"][0]["explains"] == ["a", "b"]
    assert document["causes"] == [{"fault": STUCK, "title": TITLE, "steps": ["a", "b"]}]
