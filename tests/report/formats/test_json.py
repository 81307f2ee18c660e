"""The JSON report holds all that the text says, under published keys and in ASCII."""

import json

from helpers.reports import report, step
from termprobe.report.formats.json import dump, render, report_document, run_document
from termprobe.verdict.evidence import of_bytes
from termprobe.verdict.model import Returned, Unfitted


def test_run_document_has_the_published_keys_only():
    document = run_document(report(step("fail", differs=((0, 1, "A", "B"),))))
    assert document == {
        "board": "0042",
        "verdict": "fail",
        "run": "0042.run.jsonl",
        "steps": [{"id": "a", "stage": "link", "verdict": "fail", "differs": [[0, 1, "A", "B"]]}],
    }


def test_report_document_holds_all_that_the_text_says():
    failed = step("fail", because=Unfitted("no bell"), note="e", observer="dump", answers=2)
    assert report_document(report(failed)) == {
        "board": "0042",
        "verdict": "fail",
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
            }
        ],
        "about": {"serial": "0042", "revision": "C", "builder": "R. Example", "fitted": ""},
        "profile": "singlebyte-24x80",
        "script": "acceptance",
        "plan": "f" * 64,
        "link": {"name": "sim:", "format": "9600 baud 7E1", "note": ""},
        "options": {"echo": "off"},
        "tool": "termprobe 0.1.0",
        "started": "2026-01-02T03:04:05+00:00",
        "ended": "2026-01-02T03:09:05+00:00",
        "totals": {"fail": 1},
        "damages": [],
        "notes": [],
    }


def test_evidence_is_told_in_the_words_of_the_text():
    because, bits = Returned(b"HELLO\r", b"HGLLO\r"), of_bytes(b"HELLO\r", b"HGLLO\r")
    (told,) = report_document(report(step("fail", because=because, evidence=bits)))["steps"]
    assert told["reason"] == '"HELLO" CR must come back, not "HGLLO" CR'
    assert told["evidence"] == ["1 of 6 characters differ; bit 1 arrives as 1"]


def test_no_character_of_a_board_can_act_on_a_console():
    failed = step("fail", because=Unfitted("\x1b[2J\x9b\u202e"))
    text = dump(report_document(report(failed)))
    assert text.isascii() and text.replace("\n", "").isprintable()
    assert json.loads(text)["steps"][0]["reason"] == "\x1b[2J\x9b\u202e"


def test_one_run_is_an_object_and_several_are_a_list():
    one, two = report(step("pass"), verdict="pass"), report(step("fail"), serial="0043")
    assert json.loads(render([one])) == report_document(one)
    assert json.loads(render([one, two])) == [report_document(one), report_document(two)]
