"""Which part of a run is played again."""

from helpers.scripts import SINGLE, look, plan_of
from helpers.virtual_builders import Eyes, Reader, records_of
from termprobe.diagnosis.diagnose import case_of
from termprobe.diagnosis.told_alone import bytes_sent, is_replayed, told_alone
from termprobe.journal.records import DIFFERS, Answer, Answered
from termprobe.verdict.judge import judge

PLAN = plan_of([look("one", [{"text": "HELLO"}]), look("two", [{"text": "WORLD", "times": 9}])])


def case(records):
    return case_of(SINGLE, PLAN, records, judge(PLAN, records))


def test_all_of_a_run_in_which_screens_were_read():
    whole = case(records_of(SINGLE, PLAN, ["decoder/dead/clear"], Reader()))
    assert told_alone(whole) is whole and all(map(is_replayed, whole.observations))


def test_of_eyes_only_what_they_marked():
    records = records_of(SINGLE, PLAN, [], Eyes(1))
    seen = ("JELLO", *PLAN.step("one").expected.rows[1:])
    marked = [
        Answered(one.step, Answer(DIFFERS, seen=seen), one.hash)
        if isinstance(one, Answered) and one.step == "one"
        else one
        for one in records
    ]
    part = told_alone(case(marked))
    assert [one.step_id for one in part.observations] == ["one"]
    assert bytes_sent(part.records) == len(PLAN.step("one").data)


def test_of_yes_and_no_nothing():
    part = told_alone(case(records_of(SINGLE, PLAN, [], Eyes(1))))
    assert part.observations == () and bytes_sent(part.records) == 0
