"""The text report says what the run showed, fits the page, and lets nothing act on a console."""

import dataclasses

import pytest
from hypothesis import given
from hypothesis import strategies as st

from helpers.bench_plan import step as made_step
from helpers.reports import harmful, report, step
from termprobe.report.formats import text as text_format
from termprobe.report.formats.text import headline, page, render
from termprobe.report.headline import Scope
from termprobe.report.run_notes import RunNote
from termprobe.terminal.screen import UNKNOWN_CHARACTER, Difference
from termprobe.verdict.evidence import of_bytes, of_screen
from termprobe.verdict.model import Differing, Earlier, Measured, Pressed, Returned, Unfitted
from termprobe.verdict.noticed import Missing, Rate, Right


@pytest.mark.parametrize(
    "steps, verdict, first",
    [
        (
            [step("pass"), step("fail", "b")],
            "fail",
            "FAIL: board 0042 failed 1 of 2 steps\n",
        ),
        (
            [step("pass"), step("not-fitted", "b")],
            "pass",
            "PASS: board 0042 passed 1 of 1 steps\n",
        ),
        (
            [step("pass"), step("disputed", "b")],
            "incomplete",
            "INCOMPLETE: board 0042: 1 of 2 steps disputed; everything else passed\n",
        ),
        (
            [step("pass"), step("unanswered", "b")],
            "incomplete",
            "INCOMPLETE: board 0042 passed 1 of 2 steps, the rest is not proven\n",
        ),
    ],
)
def test_first_line_tells_pass_fail_and_incomplete_apart(steps, verdict, first):
    assert page(report(*steps, verdict=verdict)).startswith(first)


def test_below_the_first_line_it_stands_how_far_that_goes():
    made = report(step("pass"), verdict="pass")
    made = dataclasses.replace(
        made, scope=Scope(is_practice=True), not_covered=("at 9600 baud 7E1 only", "b")
    )
    assert page(made).splitlines()[:4] == [
        "PASS (PRACTICE): board 0042 passed 1 of 1 steps",
        "Practice on a simulated board: this says nothing of a real one.",
        "Not covered: at 9600 baud 7E1 only; b.",
        "",
    ]


def test_a_run_that_was_stopped_is_one_line_whatever_is_left():
    left = [step("unanswered", f"press/{number}") for number in range(138)]
    lines = page(report(step("pass"), *left, verdict="incomplete")).splitlines()
    assert "  unanswered   138 steps: The serial line 138" in lines and len(lines) < 20


def test_a_failed_board_says_how_much_is_not_proven_either():
    assert "1 are not proven" in headline(report(step("fail"), step("blocked", "b")))
    assert "not proven" not in headline(report(step("fail"), step("disputed", "b")))


def test_totals_agree_with_the_steps():
    steps = [step("pass"), step("pass", "b"), step("fail", "c"), step("skipped", "d")]
    assert "Totals   4 steps: 2 pass, 1 fail, 1 skipped" in page(report(*steps))


def test_the_run_is_identified():
    made = report(step("pass"), left_out=1)
    made = dataclasses.replace(made, damages=("byte 9: a damaged record",), notes=("a part",))
    lines = page(made).splitlines()
    assert lines[2:9] == [
        "Board    serial 0042, revision C, built by R. Example",
        "Profile  singlebyte-24x80",
        "Script   acceptance, plan ffffffffffff",
        "Link     sim: 9600 baud 7E1, practice",
        "Options  echo off",
        "Run      0042.run.jsonl, 2026-01-02T03:04:05+00:00 to 2026-01-02T03:09:05+00:00",
        "Tool     termprobe 0.1.0",
    ]
    assert lines[-2:] == ["Note     a part", "Note     byte 9: a damaged record"]


def test_a_run_without_link_and_options_says_so():
    made = dataclasses.replace(report(step("pass"), link=None), options=())
    assert "Link     none\nOptions  none set\n" in page(made)


def test_evidence_names_cells_with_character_and_code():
    cells = tuple((1, column, "*", "+") for column in range(6))
    failed = step("fail", differs=cells, because=Differing(6), note="bit 0 arrives as 1")
    text = page(report(failed))
    assert 'row 1, column 0: expected "*" (2Ah), seen "+" (2Bh)' in text
    assert "and 2 more cells" in text and "bit 0 arrives as 1" in text


@pytest.mark.parametrize(
    "seen, words",
    [
        ("\u2407", "seen BEL (07h)"),
        ("\u2421", "seen DEL (7Fh)"),
        ('"', "seen '\"' (22h)"),
        ("é", "seen é (U+00E9)"),
        (UNKNOWN_CHARACTER, 'expected "A" (41h), marked as differing'),
    ],
)
def test_a_character_that_was_seen_is_reported_with_its_code(seen, words):
    assert words in page(report(step("fail", differs=((0, 0, "A", seen),))))


def test_in_a_national_variant_a_character_is_reported_as_it_is_seen_with_its_code():
    cells = (Difference(0, 0, "Ä", "ö"), Difference(0, 1, "A", "["))
    evidence = of_screen(("ÄA",), cells, variant="german")
    told = page(report(step("fail", differs=cells, evidence=evidence)))
    assert 'column 0: expected "Ä" (5Bh), seen "ö" (7Ch)' in told
    assert 'expected "A" (41h), seen [ (U+005B)' in told


def test_steps_that_the_same_evidence_explains_are_told_together():
    because = Returned(b"HELLO\r", b"HGLLO\r")
    alike = {"because": because, "evidence": of_bytes(b"HELLO\r", b"HGLLO\r")}
    steps = [step("fail"), step("fail", "b", **alike), step("fail", "c", note="x", **alike)]
    lines = page(report(*steps)).splitlines()
    start = lines.index("What failed") + 1
    assert lines[start : start + 5] == [
        "  2 steps: 1 of 6 characters differ; bit 1 arrives as 1",
        "    - b, c",
        '    - in b: "HELLO" CR must come back, not "HGLLO" CR',
        "  a: A step",
        "",
    ]


def test_right_presses_are_counted_and_all_else_is_listed_in_its_stage():
    right = {"because": Pressed((Right(b"q"),), Rate(1, 1)), "stage": "link"}
    steps = [
        step("pass", "press/q", **right),
        step("pass", "press/w", **right),
        step("pass", "chord/q", **right),
        step("skipped", "b", note="no meter"),
        step("not-fitted", "c", because=Unfitted("no bell")),
    ]
    made = report(*steps, verdict="incomplete")
    asked = [made_step(one.id, "link", "press") for one in steps[:2]]
    asked.append(made_step("chord/q", "link", "press", key="q", held=("a", "s")))
    plan = dataclasses.replace(made.plan, steps=(*asked, *made.plan.steps[3:]))
    lines = page(dataclasses.replace(made, plan=plan)).splitlines()
    start = lines.index("Stage by stage") + 1
    assert lines[start : start + 6] == [
        "  The serial line: 3 pass, 1 skipped, 1 not-fitted",
        "    pass       2 presses, each with its code",
        '    pass       chord/q  "q" came',
        "    skipped    b  no meter",
        "  not-fitted   1 step, not part of this terminal: The serial line 1",
        "",
    ]


def test_what_was_noted_stands_at_its_step_and_together_at_the_end():
    noted = (
        RunNote("a", "2026-01-02T03:04:05+00:00", "smells burnt"),
        RunNote(None, "2026-01-02T03:05:06+00:00", "late\x1b"),
        RunNote("b", "2026-01-03T03:06:07+00:00", "no bell fitted"),
    )
    steps = [step("fail", note="x"), step("not-fitted", "b", because=Unfitted("none"))]
    lines = page(dataclasses.replace(report(*steps), noted=noted)).splitlines()
    at = lines.index("    FAIL       a  A step")
    assert lines[at + 1] == "               noted 03:04: smells burnt"
    assert "               b: noted 03:06: no bell fitted" in lines
    assert lines[-5:] == [
        "",
        "Noted during the run",
        "  2026-01-02 03:04  a: smells burnt",
        "  2026-01-02 03:05  late\\x1b",
        "  2026-01-03 03:06  b: no bell fitted",
    ]


def test_answers_given_again_are_told_below_their_step():
    five = Measured(5.0, "V", "5 V", True)
    high = Earlier("fail", Measured(5.5, "V", "5 V", False))
    cells = Earlier("unsure")
    steps = [
        step("pass", because=five, earlier=(high,)),
        step("fail", "b", because=Differing(2), earlier=(cells,)),
    ]
    text = page(report(*steps))
    assert "  5 V, within the limits, 5 V\n               second reading; first 5.5 V\n" in text
    assert "FAIL       b  2 cells differ\n               second answer; first: unsure\n" in text
    assert "  b: A step\n    - 2 cells differ\n    - second answer; first: unsure\n" in text


def test_presses_that_are_counted_together_name_what_is_told_of_one():
    right = Pressed((Right(b"q"),), Rate(1, 1))
    missing = Earlier("fail", Pressed((Missing(b"q"),), Rate(0, 1)), is_taken_back=True)
    verdict = step("pass", "press/q", because=right, earlier=(missing,))
    asked = made_step("press/q", "link", "press")
    made = report(verdict, verdict="pass")
    made = dataclasses.replace(made, plan=dataclasses.replace(made.plan, steps=(asked,)))
    told = 'press/q: second press; first, taken back: no code received, not "q"'
    assert told in " ".join(page(made).split())


def test_several_runs_follow_one_another():
    one, two = report(step("pass"), verdict="pass"), report(step("fail"), serial="0043")
    assert render([one, two]) == page(one) + "\n" + page(two)


@given(st.text(), st.text(), st.text(max_size=3))
def test_no_text_of_board_or_builder_reaches_the_page_unescaped(serial, remark, seen):
    cells = tuple((0, n, "A", character) for n, character in enumerate(seen))
    failed = step("fail", because=Unfitted(remark), note=remark, differs=cells)
    assert not harmful(page(report(failed, serial=serial)))


TYPED = st.text(alphabet=st.characters(codec="ascii", exclude_characters="\n"), max_size=300)


@given(TYPED.map(lambda typed: typed.replace("-", " ")))
def test_lines_fit_the_page(reason):
    text = page(report(step("fail", because=Unfitted(reason))))
    assert max(len(line) for line in text.split("\n")) <= text_format.WIDTH
