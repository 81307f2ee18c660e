"""One step with all its evidence, and the tones of verdicts."""

import dataclasses

from helpers.reports import report, step
from helpers.whole_reports import whole_report
from termprobe.journal.records import Answer, Answered
from termprobe.plan.model import Group, Look
from termprobe.report.facts.steps import answers_of, step_facts
from termprobe.verdict.model import Covered, Earlier

AT = "2026-01-02T03:0{}:00+00:00"


def facts(made, number=0):
    return step_facts(made, made.verdict.steps[number], answers_of(made), None)


def test_a_failed_look_has_what_was_sent_seen_answered_and_noted():
    found = facts(whole_report("odd"))
    assert (found.title, found.verdict, found.tone, found.reason) == (
        "odd",
        "fail",
        "bad",
        "1 cell differs",
    )
    assert found.sent == (("odd", 'SUB "HELLO"'),) and found.sent_bytes == 6
    assert found.screen.seen[0].startswith("HGLLO ")
    assert found.cells == ('row 0, column 1: expected "E" (45h), seen "G" (47h)',)
    assert found.answers == (("03:04:06", "odd", "fail", True),)
    assert found.notes == (("03:04:06", "odd", "odd", None),)


def test_a_reading_stands_beside_its_limits_with_the_one_before():
    found = facts(whole_report(), 2)
    assert found.re_answered == "second reading; first 5.5 V"
    assert found.reading.reading == "5 V" and found.reading.tone == "good"
    assert [one.said for one in found.answers] == ["5.5 V", "pass"]
    assert [one.counts for one in found.answers] == [False, True]


def test_each_answer_has_its_time_and_who_gave_it():
    made = report(step("pass", answers=2, earlier=(Earlier("unsure"),)))
    first = Answered("a", Answer("unsure", observer="builder"), at=AT.format(1))
    second = Answered("a", Answer("as-expected", observer="dump"), at=AT.format(2))
    found = facts(dataclasses.replace(made, records=(first, second)))
    assert found.answers == (
        ("03:01:00", "builder", "unsure", False),
        ("03:02:00", "dump", "pass", True),
    )


def test_an_answer_that_amends_takes_the_place_of_the_one_before():
    records = tuple(Answered("a", Answer("unsure", note=n), amends=n == "2") for n in "12")
    (only,) = answers_of(dataclasses.replace(report(step("pass")), records=records))["a"]
    assert only.answer.note == "2"


def test_a_look_that_others_cover_was_not_sent():
    made = report(step("pass", because=Covered(("b",))))
    looks = (Look("a", "link", "A", groups=(Group(b"x", "x"),)), Look("b", "link", "The first"))
    found = facts(dataclasses.replace(made, plan=dataclasses.replace(made.plan, steps=looks)))
    assert found.sent == () and found.screen is None
    assert found.reason == "covered by The first, which passed" and found.is_covered


def test_of_much_that_was_sent_the_first_is_shown():
    made = report(step("fail", answers=1))
    groups = tuple(Group(b"A" * 1920, f"g{number}") for number in range(20))
    look = Look("a", "link", "A", groups=groups)
    found = facts(dataclasses.replace(made, plan=dataclasses.replace(made.plan, steps=(look,))))
    assert len(found.sent) == 12 and found.groups_left_out == 8 and found.sent_bytes == 38_400
    assert found.sent[0].bytes == f'"{"A" * 60}" … and 1,860 bytes more'


def test_what_was_said_of_parts_of_the_screen_is_told_unharmful():
    made = report(step("fail", answers=1))
    regions = (("row 0", False), ("column \x1b79", True))
    given = Answered("a", Answer("differs", regions=regions), at=AT.format(1))
    told = facts(dataclasses.replace(made, records=(given,))).evidence
    assert told[-1] == r"asked by parts: row 0 right, column \x1b79 wrong"
    alone = dataclasses.replace(given, answer=Answer("differs"))
    assert not facts(dataclasses.replace(made, records=(alone,))).evidence
