"""Dates as people write them, in the zone where a report is read."""

import datetime

import pytest

from termprobe.journal.records import Noted, Resumed
from termprobe.report.facts import times

ZONE = datetime.timezone(datetime.timedelta(hours=2), "CEST")


def test_a_run_of_one_day_has_one_date_and_the_name_of_the_zone():
    told = times.span_in_words("2026-06-02T21:30:00+00:00", "2026-06-02T21:59:00+00:00", ZONE)
    assert told == "2 June 2026, 23:30 to 23:59 CEST"
    minute = times.span_in_words("2026-06-02T21:30:02+00:00", "2026-06-02T21:30:59+00:00", ZONE)
    assert minute == "2 June 2026, 23:30 CEST"
    over = times.span_in_words("2026-06-02T21:30:00+00:00", "2026-06-02T22:05:00+00:00", ZONE)
    assert over == "2 June 2026, 23:30 to 3 June 2026, 00:05 CEST"


@pytest.mark.parametrize("at", ["", "yesterday", "9999-99-99", "0001-01-01T00:00:00+14:00"])
def test_what_is_no_moment_is_told_as_it_stands(at):
    assert times.clock_time(at, ZONE) == at and times.moment_in_words(at, ZONE) == at
    assert times.span_in_words(at, at, ZONE) == at


@pytest.mark.parametrize(
    "seconds, words",
    [(0, "0 s"), (59.4, "59 s"), (60, "1 min 0 s"), (278, "4 min 38 s"), (7500, "2 h 5 min")],
)
def test_lengths_of_time(seconds, words):
    assert times.seconds_in_words(seconds) == words


def test_a_run_of_one_moment_has_one_time():
    at = "2026-06-02T21:30:00+00:00"
    assert times.span_in_words(at, at, ZONE) == f"{times.moment_in_words(at, ZONE)} {ZONE}"


def test_the_pause_between_two_sittings_is_no_part_of_the_duration():
    records = [
        Noted("x", at="2026-01-01T10:02:00+00:00"),
        Resumed(at="2026-01-05T10:00:00+00:00"),
        Noted("x", at="2026-01-05T10:01:00+00:00"),
    ]
    told = times.duration_in_words("2026-01-01T10:00:00+00:00", records)
    assert told == "3 min 0 s in 2 sittings"
    assert times.duration_in_words("2026-01-01T10:00:00+00:00", records[:1]) == "2 min 0 s"
    assert times.duration_in_words("?", records) == ""


def test_a_day_alone_has_no_time_of_day_in_any_zone():
    day, later = "2026-07-03", "2026-07-05T10:00:00+02:00"
    assert times.moment_in_words(day, ZONE) == "3 July 2026"
    assert times.clock_time(day, ZONE) == day
    assert times.span_in_words(day, day, ZONE) == "3 July 2026"
    assert times.span_in_words(day, later, ZONE) == "3 July 2026 to 5 July 2026, 10:00"
    assert times.duration_in_words(day, [Noted("x", at=later)]) == ""
