"""Each link of a run is a line."""

import dataclasses
import datetime

from helpers.reports import report, step
from termprobe.journal.records import LinkUsed
from termprobe.journal.spans import LinkSpan
from termprobe.report.link_words import lines

PLAN = report(*(step("pass", f"s{number}") for number in range(12))).plan
PORT = LinkSpan(LinkUsed("/dev/ttyUSB0", "9600 baud 7E1", "rounds"), "10:00", "10:05", ("s0",))


def practice(count):
    steps = tuple(f"s{number}" for number in range(count))
    return LinkSpan(LinkUsed("sim:", "9600 baud 7E1"), "11:00", "11:05", steps)


def test_each_link_has_its_times_and_how_much_was_answered_over_it():
    assert lines((), PLAN) == ("none",)
    assert lines((PORT,), PLAN) == (
        "/dev/ttyUSB0 9600 baud 7E1 rounds, 10:00 to 10:05, 1 step answered",
    )
    assert lines((practice(2),), PLAN) == (
        "sim: 9600 baud 7E1, practice, 11:00 to 11:05, 2 steps answered",
    )


def test_times_are_those_of_the_zone_that_is_asked_for():
    zone = datetime.timezone(datetime.timedelta(hours=2))
    span = dataclasses.replace(PORT, start="2026-01-02T23:04:05+00:00", end="")
    assert ", 01:04:05 to 01:04:05, " in lines((span,), PLAN, zone)[0]


def test_where_only_some_links_are_practice_these_name_their_steps_by_title():
    assert lines((PORT, practice(2)), PLAN)[1].endswith("2 steps answered: A step, A step")
    assert lines((PORT, practice(12)), PLAN)[1].endswith("12 steps answered: The serial line 12")
    assert lines((PORT, PORT), PLAN)[1].endswith("1 step answered")
