"""The text and JSON reports say what the run showed, fit the page, and let nothing of a board act on a console."""

import json

from hypothesis import given
from hypothesis import strategies as st

from termprobe.plan.model import Plan, Stage, Step
from termprobe.report import json as report_json
from termprobe.report import text as report_text
from termprobe.report.record import RunReport
from termprobe.verdict.model import RunVerdict, StepVerdict

STAGES = (Stage("link", "The serial line"), Stage("looks", "Looks"))


def report(*steps, verdict="fail", serial="0042", **header):
    plan = Plan(
        "singlebyte-24x80",
        "acceptance",
        "All of it",
        24,
        80,
        STAGES,
        tuple(Step(step.id, step.stage, "look", step.title, "") for step in steps),
        "f" * 64,
    )
    about = {
        "board": {"serial": serial, "revision": "C", "builder": "R. Example"},
        "at": "2026-01-02T03:04:05+00:00",
        "link": {"name": "sim:", "format": "9600 baud 7E1"},
        "tool": "termprobe 0.1.0",
        **header,
    }
    return RunReport(
        "0042.run.jsonl",
        about,
        plan,
        RunVerdict(verdict, steps),
        (("echo", "off"),),
        "2026-01-02T03:09:05+00:00",
    )


def step(verdict, step_id="a", **fields):
    return StepVerdict(
        step_id, fields.pop("stage", "link"), fields.pop("title", "A step"), verdict, **fields
    )


def test_first_line_tells_pass_fail_and_incomplete_apart():
    assert report_text.render(report(step("pass"), step("fail", "b"))).startswith(
        "FAIL: board 0042 failed 1 of 2 steps\n"
    )
    assert report_text.render(
        report(step("pass"), step("not-fitted", "b"), verdict="pass")
    ).startswith("PASS: board 0042 passed 1 of 1 steps\n")
    assert report_text.render(
        report(step("pass"), step("unanswered", "b"), verdict="incomplete")
    ).startswith("INCOMPLETE: board 0042 passed 1 of 2")


def test_a_failed_board_says_how_much_is_not_proven_either():
    assert "1 are not proven" in report_text.headline(report(step("fail"), step("blocked", "b")))


def test_totals_agree_with_the_steps():
    text = report_text.render(
        report(step("pass"), step("pass", "b"), step("fail", "c"), step("skipped", "d"))
    )
    assert "Totals   2 pass, 1 fail, 1 skipped" in text


def test_evidence_names_cells_with_character_and_code():
    cells = tuple((1, column, "*", "+") for column in range(6))
    text = report_text.render(report(step("fail", differs=cells, evidence=("bit 0 arrives as 1",))))
    assert 'row 1, column 0: expected "*" (2Ah), seen "+" (2Bh)' in text
    assert "and 2 more cells" in text and "bit 0 arrives as 1" in text


def test_a_control_picture_is_reported_as_its_code():
    text = report_text.render(report(step("fail", differs=((0, 0, "A", "\u2407"),))))
    assert "seen BEL (07h)" in text


@given(st.text(), st.text(), st.text(max_size=3))
def test_no_text_of_board_or_builder_reaches_the_page_unescaped(serial, reason, seen):
    cells = tuple((0, n, "A", character) for n, character in enumerate(seen))
    text = report_text.render(
        report(step("fail", reason=reason, differs=cells, evidence=(reason,)), serial=serial)
    )
    assert not [
        c
        for c in text
        if c != "\n" and (ord(c) < 0x20 or 0x7F <= ord(c) <= 0x9F or 0x202A <= ord(c) <= 0x202E)
    ]


@given(
    st.text(alphabet=st.characters(codec="ascii", exclude_characters="\n"), max_size=300).map(
        lambda t: t.replace("-", " ")
    )
)
def test_lines_fit_the_page(reason):
    text = report_text.render(report(step("fail", reason=reason)))
    assert max(len(line) for line in text.split("\n")) <= report_text.WIDTH


def test_run_document_has_the_published_keys_only():
    document = report_json.run_document(report(step("fail", differs=((0, 1, "A", "B"),))))
    assert document == {
        "board": "0042",
        "verdict": "fail",
        "run": "0042.run.jsonl",
        "steps": [{"id": "a", "stage": "link", "verdict": "fail", "differs": [[0, 1, "A", "B"]]}],
    }


def test_report_document_holds_all_that_the_text_says_and_is_ascii():
    document = report_json.report_document(
        report(step("fail", reason="\x1b[2J", evidence=("e",), observer="dump"))
    )
    text = report_json.dump(document)
    assert text.isascii() and "\x1b" not in text
    assert json.loads(text)["totals"] == {"fail": 1}
    assert (
        document["steps"][0]["evidence"] == ["e"] and document["about"]["builder"] == "R. Example"
    )
