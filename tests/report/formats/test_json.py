"""The JSON report holds all that the text says, under published keys and in ASCII.

Its records are made in document_of.py and document_parts.py.
"""

import dataclasses
import json

from helpers.reports import report, step
from termprobe.report.formats.json import dump, render, report_document, run_document
from termprobe.report.headline import Scope
from termprobe.report.run_notes import RunNote
from termprobe.verdict.evidence import of_bytes
from termprobe.verdict.model import Differing, Earlier, Returned, Unfitted

HOW_FAR = {
    "kind": "whole",
    "practice": False,
    "headline": "FAIL: board 0042 failed 1 of 1 steps",
    "counts": {"steps": 1, "done": 1, "covered": 0, "not_fitted": 0, "left_out": 0},
    "disputed": [],
    "not_covered": [],
}
LINK = {"name": "sim:", "format": "9600 baud 7E1", "note": ""}


def test_run_document_has_the_published_keys_only():
    document = run_document(report(step("fail", differs=((0, 1, "A", "B"),))))
    assert document == {
        "board": "0042",
        "verdict": "fail",
        **HOW_FAR,
        "run": "0042.run.jsonl",
        "steps": [{"id": "a", "stage": "link", "verdict": "fail", "differs": [[0, 1, "A", "B"]]}],
    }


def test_report_document_holds_all_that_the_text_says():
    failed = step("fail", because=Unfitted("no bell"), note="e", observer="dump", answers=2)
    document = report_document(report(failed))
    assert document.pop("facts")["stages"][0]["steps"][0]["reason"] == "no bell"
    assert document == {
        "board": "0042",
        "verdict": "fail",
        **HOW_FAR,
        "run": "0042.run.jsonl",
        "steps": [
            {
                "id": "a",
                "stage": "link",
                "verdict": "fail",
                "differs": [],
                "title": "A step",
                "reason": "no bell",
                "evidence": ["note: e"],
                "observer": "dump",
                "not_seen": [],
                "answers": 2,
                "differing": None,
                "earlier": [],
            }
        ],
        "about": {
            "serial": "0042",
            "revision": "C",
            "builder": "R. Example",
            "fitted": "",
            "batch": "",
        },
        "profile": "singlebyte-24x80",
        "script": "acceptance",
        "plan": "f" * 64,
        "link": LINK,
        "links": [
            LINK
            | {
                "start": "2026-01-02T03:04:05+00:00",
                "end": "2026-01-02T03:04:05+00:00",
                "practice": True,
                "steps": [],
            }
        ],
        "options": {"echo": "off"},
        "tool": "termprobe 0.1.0",
        "started": "2026-01-02T03:04:05+00:00",
        "ended": "2026-01-02T03:09:05+00:00",
        "totals": {"fail": 1},
        "damages": [],
        "remarks": [],
        "notes": [],
        "suspects": [],
        "known_faults": [],
        "causes": [],
        "claims": [],
        "digest": "",
    }


def test_a_part_a_practice_and_what_is_disputed_can_be_told_by_a_program():
    made = report(step("pass"), step("disputed", "b"), verdict="incomplete")
    made = dataclasses.replace(made, scope=Scope(3, True), not_covered=("handshake",))
    document = run_document(made)
    assert (document["kind"], document["practice"]) == ("part", True)
    assert document["disputed"] == ["b"] and document["not_covered"] == ["handshake"]
    assert document["counts"]["left_out"] == 3


def test_evidence_is_told_in_the_words_of_the_text():
    because, bits = Returned(b"HELLO\r", b"HGLLO\r"), of_bytes(b"HELLO\r", b"HGLLO\r")
    (told,) = report_document(report(step("fail", because=because, evidence=bits)))["steps"]
    assert told["reason"] == '"HELLO" CR must come back, not "HGLLO" CR'
    assert told["evidence"] == ["1 of 6 characters differ; bit 1 arrives as 1"]


def test_cells_that_were_counted_and_cells_that_were_marked_are_told_apart():
    steps = [
        step("fail", because=Differing(160)),
        step("fail", "b", because=Differing(160, is_counted=False)),
    ]
    told = report_document(report(*steps))["steps"]
    assert [one["differing"] for one in told] == [
        {"cells": 160, "how": "counted"},
        {"cells": 160, "how": "marked, perhaps not all"},
    ]


def test_notes_have_step_time_and_text():
    noted = (RunNote("a", "2026-01-02T03:04:05+00:00", "smells burnt"), RunNote(None, "", "late"))
    made = dataclasses.replace(report(step("fail")), noted=noted, notes=("only a part",))
    document = report_document(made)
    assert document["remarks"] == ["only a part"]
    assert document["notes"] == [
        {"step": "a", "time": "2026-01-02T03:04:05+00:00", "text": "smells burnt"},
        {"step": None, "time": "", "text": "late"},
    ]


def test_answers_that_do_not_count_any_more_are_listed():
    earlier = (Earlier("unsure", note="dim"), Earlier("fail", Differing(3), is_taken_back=True))
    (told,) = report_document(report(step("pass", earlier=earlier)))["steps"]
    assert told["earlier"] == [
        {"verdict": "unsure", "reason": "dim", "taken_back": False},
        {"verdict": "fail", "reason": "3 cells differ", "taken_back": True},
    ]


def test_no_character_of_a_board_can_act_on_a_console():
    failed = step("fail", because=Unfitted("\x1b[2J\x9b\u202e"))
    text = dump(report_document(report(failed)))
    assert text.isascii() and text.replace("\n", "").isprintable()
    assert json.loads(text)["steps"][0]["reason"] == "\x1b[2J\x9b\u202e"


def test_one_run_is_an_object_and_several_are_a_list():
    one, two = report(step("pass"), verdict="pass"), report(step("fail"), serial="0043")
    assert json.loads(render([one])) == report_document(one)
    assert json.loads(render([one, two])) == [report_document(one), report_document(two)]
