"""The text report says what the run showed, fits the page, and lets nothing act on a console.

Its lines are made in text_sections.py and text_stages.py.
"""

import dataclasses

import pytest
from hypothesis import given
from hypothesis import strategies as st

from helpers.bench_plan import step as made_step
from helpers.reports import harmful, report, step
from termprobe.journal.records import BoardUnderTest
from termprobe.report.formats import text as text_format
from termprobe.report.formats.text import headline, page, render
from termprobe.report.headline import Scope
from termprobe.report.run_notes import RunNote
from termprobe.terminal.screen import UNKNOWN_CHARACTER, Difference
from termprobe.verdict.evidence import of_bytes, of_screen
from termprobe.verdict.model import (
    Covered,
    Differing,
    Earlier,
    Measured,
    Pressed,
    Returned,
    Unfitted,
)
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
        "PRACTICE, simulated board: board 0042 passed 1 of 1 steps",
        "Practice on a simulated board: this says nothing of a real one.",
        "Not covered: at 9600 baud 7E1 only; b.",
        "",
    ]
    assert "What was not tried\n  at 9600 baud 7E1 only\n  b\n" in page(made)


def test_a_run_that_was_stopped_is_one_line_whatever_is_left():
    left = [step("unanswered", f"press/{number}") for number in range(138)]
    lines = page(report(step("pass"), *left, verdict="incomplete")).splitlines()
    assert "  unanswered: 138 steps: The serial line 138" in lines and len(lines) < 40


def test_a_failed_board_says_how_much_is_not_proven_either():
    assert "1 is not proven" in headline(report(step("fail"), step("blocked", "b")))
    assert "not proven" not in headline(report(step("fail"), step("disputed", "b")))


def test_totals_agree_with_the_steps():
    steps = [step("pass"), step("pass", "b"), step("fail", "c"), step("skipped", "d")]
    assert "Totals       4 steps: 2 pass, 1 fail, 1 skipped" in page(report(*steps))


def test_the_run_is_identified():
    made = report(step("pass"), left_out=1)
    damages, remarks = ("byte 9: a damaged record",), ("a part",)
    made = dataclasses.replace(made, damages=damages, notes=remarks, digest="ab" * 32)
    lines = page(made).splitlines()
    assert lines[2:15] == [
        "Board        0042",
        "Revision     C",
        "Builder      R. Example",
        "Terminal     singlebyte-24x80",
        "Script       All of it (acceptance), plan ffffffffffff",
        "Date         2 January 2026, 03:04 to 03:09 UTC",
        "Answered by  nobody yet",
        "Link         sim: 9600 baud 7E1, practice, 03:04:05 to 03:04:05, 0 steps",
        "             answered",
        "Options      echo off",
        "Run file     0042.run.jsonl",
        f"SHA-256      {'ab' * 32}",
        "Program      termprobe 0.1.0",
    ]
    assert "  Remark: a part" in lines and "  Damage: byte 9: a damaged record" in lines


def test_the_batch_of_parts_stands_beside_the_builder():
    made = report(step("pass"), board=BoardUnderTest("7", batch="kit 3"))
    assert "Batch        kit 3" in page(made).splitlines()


def test_a_run_without_link_and_options_says_so():
    made = dataclasses.replace(report(step("pass"), link=None), options=())
    assert "Link         none\nOptions      none set\n" in page(made)


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


def test_steps_that_the_same_evidence_explains_are_one_cause():
    because = Returned(b"HELLO\r", b"HGLLO\r")
    alike = {"because": because, "evidence": of_bytes(b"HELLO\r", b"HGLLO\r")}
    steps = [step("fail"), step("fail", "b", **alike), step("fail", "c", note="x", **alike)]
    told = " ".join(page(report(*steps)).split())
    assert (
        'What failed 1 A step; "HELLO" CR must come back, not "HGLLO" CR; 1 of 6 characters '
        "differ; bit 1 arrives as 1: 2 steps failed by it. Next: "
    ) in told


def test_right_presses_are_counted_and_all_else_is_listed_in_its_stage():
    right = {"because": Pressed((Right(b"q"),), Rate(1, 1)), "stage": "link"}
    steps = [
        step("pass", "press/q", **right),
        step("pass", "press/w", **right),
        step("pass", "chord/q", title="A chord", **right),
        step("skipped", "b", note="no meter"),
        step("not-fitted", "c", because=Unfitted("no bell")),
    ]
    made = report(*steps, verdict="incomplete")
    asked = [made_step(one.id, "link", "press") for one in steps[:2]]
    asked.append(made_step("chord/q", "link", "press", key="q", held=("a", "s")))
    plan = dataclasses.replace(made.plan, steps=(*asked, *made.plan.steps[3:]))
    lines = page(dataclasses.replace(made, plan=plan)).splitlines()
    start = lines.index("Stage by stage") + 1
    assert lines[start : start + 4] == [
        "  The serial line: 3 pass, 1 skipped",
        "    pass       2 presses, each with its code",
        '    pass       A chord: "q" came',
        "    skipped    A step: no meter",
    ]
    assert (
        "  1 step of the script tries what this terminal does not have: single steps of 1\n"
        "    stage\n"
    ) in "\n".join(lines) + "\n"


def test_what_was_noted_stands_at_its_step_and_together_at_the_end():
    noted = (
        RunNote("a", "2026-01-02T03:04:05+00:00", "smells burnt"),
        RunNote(None, "2026-01-02T03:05:06+00:00", "late\x1b"),
        RunNote("b", "2026-01-03T03:06:07+00:00", "no bell fitted"),
    )
    steps = [step("fail", note="x"), step("not-fitted", "b", because=Unfitted("none"))]
    lines = page(dataclasses.replace(report(*steps), noted=noted)).splitlines()
    assert "               noted 03:04:05: smells burnt" in lines
    assert "               noted 03:06:07: no bell fitted" in lines
    start = lines.index("Noted during the run") + 1
    assert lines[start : start + 3] == [
        "  2 January 2026, 03:04  at A step: smells burnt",
        "  2 January 2026, 03:05  late\\x1b",
        "  3 January 2026, 03:06  at A step: no bell fitted",
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
    assert ": 5 V, within the limits, 5 V\n               second reading; first 5.5 V\n" in text
    assert "A step: 2 cells differ\n               second answer; first: unsure\n" in text


def test_a_press_that_was_answered_again_is_told_by_itself():
    right = Pressed((Right(b"q"),), Rate(1, 1))
    missing = Earlier("fail", Pressed((Missing(b"q"),), Rate(0, 1)), is_taken_back=True)
    verdict = step("pass", "press/q", because=right, earlier=(missing,))
    asked = made_step("press/q", "link", "press")
    made = report(verdict, verdict="pass")
    made = dataclasses.replace(made, plan=dataclasses.replace(made.plan, steps=(asked,)))
    told = 'second press; first, taken back: no code received, not "q"'
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


def test_looks_that_others_cover_are_one_paragraph():
    covered = [step("pass", name, title=name, because=Covered(("a",))) for name in ("Up", "Down")]
    lines = page(report(step("pass"), *covered, verdict="pass")).splitlines()
    assert "    pass       2 by others that passed: Up; Down" in lines
    assert not any("covered by A step" in line for line in lines)
