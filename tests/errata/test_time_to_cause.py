"""How long it took until a fault was named: looks and minutes, nights left out."""

from helpers.bench_plan import look, plan, step
from termprobe.errata.time_to_cause import TimeToCause, time_to_cause
from termprobe.journal.known_fault import ToRepair
from termprobe.journal.records import AS_EXPECTED, Answer, Answered, Resumed

PLAN = plan(*(look(name, "looks") for name in "abcd"), step("ask", "looks", "ask"))
NAMED = ToRepair("scroll/dead")


def answered(name, at):
    return Answered(name, Answer(AS_EXPECTED), at=f"2026-01-02T{at}+00:00")


def test_it_counts_from_the_look_that_failed_until_the_fault_is_named():
    records = [
        answered("a", "10:00:00"),
        answered("b", "10:01:00"),
        answered("ask", "10:02:00"),
        answered("c", "10:04:00"),
        NAMED,
        answered("d", "11:00:00"),
    ]
    assert time_to_cause(PLAN, records, {"b", "c"}) == TimeToCause(2, 3.0, True)


def test_where_none_is_named_it_is_all_to_the_end():
    records = [answered("a", "10:00:00"), answered("b", "10:01:00")]
    assert time_to_cause(PLAN, records, {"a"}) == TimeToCause(2, 1.0, False)
    assert time_to_cause(PLAN, records, {"ask"}) is None


def test_the_night_between_two_sittings_does_not_count():
    records = [answered("a", "10:00:00"), Resumed(), answered("b", "23:00:00"), NAMED]
    assert time_to_cause(PLAN, records, {"a"}) == TimeToCause(2, 0.0, True)


def test_dates_that_are_none_take_no_time():
    records = [Answered("a", Answer(), at=at) for at in ("", "x", "2026-01-02", "2026-01-01")]
    assert time_to_cause(PLAN, records, {"a"}) == TimeToCause(4, 0.0, False)
