"""The one line that says what a run has shown, and of how much."""

import pytest

from helpers.reports import report, step
from termprobe.report.headline import Scope, headline
from termprobe.verdict.model import Covered, Returned, Silent

NOTHING = Returned(b"a", b"")
SILENT = step("blocked", "s", because=Silent(NOTHING))
HEARD = step("blocked", "s", because=Silent(NOTHING, is_heard=True))
PART = "The serial line, Looks"


def line(*steps, verdict, left_out=0, is_practice=False):
    made = report(*steps, verdict=verdict)
    return headline("board 0042", made.plan, made.verdict, Scope(left_out, is_practice))


@pytest.mark.parametrize(
    "steps, verdict, expected",
    [
        ([step("pass")], "pass", "PASS: board 0042 passed 1 of 1 steps"),
        (
            [step("pass"), step("pass", "b", because=Covered(("a",)))],
            "pass",
            "PASS: board 0042 passed 2 of 2 steps, 1 of them covered by others",
        ),
        (
            [step("pass"), step("disputed", "b"), step("not-fitted", "c")],
            "incomplete",
            "INCOMPLETE: board 0042: 1 of 2 steps disputed; everything else passed",
        ),
        (
            [step("pass"), step("disputed", "b"), step("unanswered", "c")],
            "incomplete",
            "INCOMPLETE: board 0042 passed 1 of 3 steps, the rest is not proven; 1 disputed",
        ),
        (
            [step("fail"), step("disputed", "b"), step("skipped", "c")],
            "fail",
            "FAIL: board 0042 failed 1 of 3 steps; 1 is not proven; 1 disputed",
        ),
        (
            [SILENT],
            "incomplete",
            "INCOMPLETE: nothing has ever come back from board 0042: "
            "trouble with the link, no verdict on the board",
        ),
        (
            [HEARD],
            "incomplete",
            "INCOMPLETE: nothing has ever come back from board 0042, though it shows what is "
            "sent: trouble with the link, no verdict on the board",
        ),
        (
            [step("fail"), SILENT],
            "fail",
            "FAIL: board 0042 failed 1 of 2 steps; 1 is not proven; "
            "nothing has ever come back from it, which is no verdict on the board",
        ),
    ],
)
def test_a_whole_run(steps, verdict, expected):
    assert line(*steps, verdict=verdict) == expected


def test_a_failure_of_the_adapter_is_none_of_the_board():
    adapter, cable = step("fail", "a", blames="adapter"), step("fail", "c", blames="cable")
    assert line(step("pass"), adapter, verdict="incomplete") == (
        "INCOMPLETE: the adapter failed 1 step of 2: trouble with the link, no verdict on the board"
    )
    of_both = line(step("fail"), adapter, cable, cable, verdict="fail")
    assert of_both == (
        "FAIL: board 0042 failed 1 of 4 steps, and the adapter failed 1 step and the cable 2"
    )


def test_a_part_is_never_headed_pass():
    assert line(step("pass"), verdict="pass", left_out=136) == (
        f"PARTIAL: board 0042: {PART}, 1 of 137 steps, all right; no fault indicated by these"
    )
    failed = line(step("fail"), verdict="fail", left_out=136)
    assert failed.startswith("FAIL: ") and failed.endswith(
        f"; only a part was tried: {PART}, 1 of 137 steps"
    )
    left = line(step("unanswered"), verdict="incomplete", left_out=1)
    assert left.startswith("INCOMPLETE: ") and f"only a part was tried: {PART}, 1 of 2" in left


@pytest.mark.parametrize("verdict", ["fail", "incomplete"])
def test_a_practice_says_so_at_once(verdict):
    assert "(PRACTICE): board 0042" in line(step(verdict), verdict=verdict, is_practice=True)


def test_a_practice_is_never_headed_pass():
    assert line(step("pass"), verdict="pass", is_practice=True) == (
        "PRACTICE, simulated board: board 0042 passed 1 of 1 steps"
    )


def test_a_run_is_whole_where_nothing_is_left_out():
    assert (Scope().kind, Scope(1).kind) == ("whole", "part")


@pytest.mark.parametrize(
    "verdict, left_out, expected",
    [
        ("pass", 0, "FROM A CARD, not on a link: board 0042 passed 1 of 1 steps"),
        ("pass", 3, "PARTIAL (FROM A CARD): board 0042: "),
        ("fail", 0, "FAIL (FROM A CARD): board 0042 failed 1 of 1 steps"),
        ("incomplete", 0, "INCOMPLETE (FROM A CARD): board 0042 passed 0 of 1 steps"),
    ],
)
def test_what_was_filled_in_from_a_card_is_never_headed_pass(verdict, left_out, expected):
    of_step = {"incomplete": "unanswered"}.get(verdict, verdict)
    made = report(step(of_step), verdict=verdict)
    scope = Scope(left_out, is_from_card=True)
    assert headline("board 0042", made.plan, made.verdict, scope).startswith(expected)


def test_a_card_that_was_gone_on_with_on_a_link_is_headed_so():
    scope = Scope(is_from_card=True, is_on_link_too=True)
    lines = []
    for word in ("pass", "fail"):
        made = report(step(word), verdict=word)
        lines.append(headline("board 0042", made.plan, made.verdict, scope))
    assert lines[0].startswith("FROM A CARD IN PART: board 0042 passed 1 of 1 steps")
    assert lines[1].startswith("FAIL (FROM A CARD IN PART): board 0042 failed 1")
