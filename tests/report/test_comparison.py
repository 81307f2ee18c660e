"""What has become of each step from one run to another, and what both screens showed."""

import dataclasses

from helpers.bench_plan import look, plan, step
from helpers.reports import report as made_report
from termprobe.journal.kept import KeptPhoto
from termprobe.journal.records import AS_EXPECTED, DIFFERS, Answer, Answered, BoardUnderTest
from termprobe.report.comparison import compared
from termprobe.report.facts.pictures import CellRun
from termprobe.report.run_notes import RunNote
from termprobe.verdict.judge import judge

PLAN = plan(*(look(name, "looks") for name in "abcd"), step("volts", "looks", "ask"))
GOOD = PLAN.step("a").expected.rows
BAD = ("X" + GOOD[0][1:], *GOOD[1:])


def report(plan=PLAN, serial="0042", **answers):
    """Return the report of a run; each answer is whether the step passed, or the rows seen."""
    records = []
    for name, said in answers.items():
        answer = Answer(AS_EXPECTED if said is True else DIFFERS)
        if isinstance(said, tuple):
            answer = Answer(seen=said, cursor=(0, 0), bells=0)
        records.append(Answered(name, answer, hash=plan.step(name).hash))
    usual = made_report(serial=serial)
    return dataclasses.replace(
        usual, plan=plan, verdict=judge(plan, records), records=tuple(records)
    )


def became(first, second):
    return {one.id: one.became for one in compared(first, second).steps}


def test_each_step_has_become_something_or_is_the_same():
    first = report(a=False, b=True, c=False, d=True, volts=True)
    second = report(a=True, b=False, c=False, d=True)
    found = compared(first, second)
    assert {one.id: one.became for one in found.steps} == {
        "a": "mended",
        "b": "new",
        "c": "fails as before",
        "volts": "changed",
    }
    assert found.same == 1 and found.is_worse
    assert not compared(second, second).is_worse and compared(second, second).same == 3


def test_a_step_that_is_asked_otherwise_or_in_one_run_only_is_not_compared():
    other = plan(
        dataclasses.replace(PLAN.step("a"), hash="other"), look("b", "looks"), look("new", "looks")
    )
    found = became(report(a=False, b=True, c=True), report(plan=other, a=True, b=True, new=True))
    assert found["a"] == "another step" and "b" not in found
    assert (found["c"], found["new"]) == ("only first", "only second")


def test_screens_stand_side_by_side_where_both_are_known_and_differ():
    (step,) = compared(report(a=True), report(a=BAD)).of("new")
    assert step.screen.expected == GOOD and step.screen.seen == BAD
    assert step.screen.differing == (CellRun(0, 0, 1),)
    (step,) = compared(report(a=True), report(a=False)).of("new")
    assert step.screen is None, "what was seen is not known"
    worse = ("XY" + GOOD[0][2:], *GOOD[1:])
    (step,) = compared(report(a=BAD), report(a=worse)).of("fails otherwise")
    assert step.screen.differing == (CellRun(0, 1, 1),)
    (step,) = compared(report(a=BAD), report(a=BAD)).of("fails as before")
    assert step.screen is None


def test_what_is_not_the_same_about_the_runs_is_told():
    second = report(serial="7")
    header = dataclasses.replace(second.header, board=BoardUnderTest("7", "C", batch="k"))
    found = compared(report(), dataclasses.replace(second, header=header))
    assert [tuple(one) for one in found.fields] == [
        ("Board", "0042", "7"),
        ("Builder", "R. Example", "not told"),
        ("Batch", "not told", "k"),
    ]


def test_photos_of_both_runs_are_told_step_by_step():
    def with_photo(made, step, name):
        kept = KeptPhoto(name, "0" * 64, 100, 64, 32)
        note = RunNote(step, "2026-07-03T18:45:02+00:00", "hot", kept)
        other = RunNote("a", "2026-07-03T18:45:02+00:00", "no photo")
        return dataclasses.replace(made, noted=(other, note))

    first = with_photo(report(a=True), "b", "1.jpg")
    second = with_photo(report(a=True), None, "2.jpg")
    at_step, at_none = compared(first, second).photos
    (note,) = at_step.first
    assert (at_step.step, note.photo.name, at_step.second) == ("Look at b", "1.jpg", ())
    assert (at_none.step, at_none.first, at_none.second[0].text) == ("", (), "hot")
    assert compared(report(a=True), report(a=True)).photos == ()
