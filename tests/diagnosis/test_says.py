"""Two runs that say the same of their boards have one digest, and any difference gives another."""

import dataclasses

from helpers.bench_plan import PROFILE, look, plan
from termprobe.diagnosis.diagnose import case_of
from termprobe.diagnosis.says import says
from termprobe.journal.records import AS_EXPECTED, DIFFERS, Answer, Answered, OptionSet, Sent
from termprobe.verdict.judge import judge

PLAN = plan(*(look(name, "looks") for name in "ab"))


def answered(name, word):
    return Answered(name, Answer(word), hash=PLAN.step(name).hash)


def said(*records):
    return says(case_of(PROFILE, PLAN, records, judge(PLAN, records)))


RECORDS = (Sent("a", b"x"), answered("a", DIFFERS), OptionSet("o", "p"), answered("b", AS_EXPECTED))


def test_dates_and_numbers_of_records_say_nothing():
    later = [dataclasses.replace(record, seq=9, t=5.0, at="2026-01-01") for record in RECORDS]
    assert said(*later) == said(*RECORDS)


def test_what_was_sent_set_and_answered_says_something():
    others = [
        (Sent("a", b"y"), *RECORDS[1:]),
        (*RECORDS[:2], OptionSet("o", "q"), RECORDS[3]),
        (*RECORDS[:3], answered("b", DIFFERS)),
        (RECORDS[3], *RECORDS[:3]),
    ]
    assert len({said(*records) for records in (RECORDS, *others)}) == 5
