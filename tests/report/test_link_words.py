"""Each link of a run is a line."""

from helpers.reports import report, step
from termprobe.journal.records import LinkUsed
from termprobe.journal.spans import LinkSpan
from termprobe.report.link_words import lines

PLAN = report(*(step("pass", f"s{number}") for number in range(12))).plan
PORT = LinkSpan(LinkUsed("/dev/ttyUSB0", "9600 baud 7E1", "rounds"), "10:00", "10:05", ("s0",))


def practice(count):
    steps = tuple(f"s{number}" for number in range(count))
    return LinkSpan(LinkUsed("sim:", "9600 baud 7E1"), "11:00", "11:05", steps)


def test_one_link_is_named_without_times():
    assert lines((), PLAN) == ("none",)
    assert lines((PORT,), PLAN) == ("/dev/ttyUSB0 9600 baud 7E1 rounds",)
    assert lines((practice(2),), PLAN) == ("sim: 9600 baud 7E1, practice",)


def test_of_several_links_each_has_its_times_and_practice_names_its_steps():
    assert lines((PORT, practice(2)), PLAN) == (
        "/dev/ttyUSB0 9600 baud 7E1 rounds, 10:00 to 10:05, 1 step answered",
        "sim: 9600 baud 7E1, practice, 11:00 to 11:05, 2 steps answered: s0, s1",
    )
    assert lines((PORT, practice(12)), PLAN)[1].endswith("12 steps answered: The serial line 12")
    assert lines((PORT, PORT), PLAN)[1].endswith("1 step answered")
