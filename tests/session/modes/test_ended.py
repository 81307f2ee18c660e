"""Every step has its verdict."""

from dataclasses import replace

from helpers.bench_plan import full_plan
from helpers.bench_state import after, after_event, answers, asked_by, console, judged, state
from termprobe.plan.choose import choose
from termprobe.runner.course import course_of
from termprobe.session.messages import Quit, ReadReport, ReportRead
from termprobe.session.react.in_hand import take

RECORDS = answers(("hello", "differs"), ("lamp", "as-expected"))
MADE = after_event(
    state(None, "ended", is_known=True, ending=("The hidden fault was made up.",)),
    judged(RECORDS, None),
)


def test_verdicts_are_counted_and_those_that_are_not_good_are_listed():
    shown = console(MADE)
    assert "FAIL: board 0007 failed 1 of 9 steps; 7 are not proven" in shown
    assert "6 of 9 steps have no verdict yet" in shown
    assert "1 pass, 1 fail, 6 unanswered, 1 blocked" in shown
    assert "unanswered: 6 steps: " in shown
    assert "Every step has its verdict" not in shown
    assert "x fail       Look at hello" in shown and "Is the lamp lit?" not in shown
    assert "The hidden fault was made up." in shown


def test_every_step_has_its_verdict_only_where_none_is_left():
    plan = choose(full_plan(), ["lamp"])
    made = state(None, "ended", plan=plan)
    only = course_of(plan, answers(("lamp", "as-expected")))
    assert "Every step has its verdict: 1 pass" in console(replace(made, course=only))


def test_what_was_begun_on_a_card_is_not_headed_pass():
    plan = choose(full_plan(), ["lamp"])
    made = state(None, "ended", plan=plan, is_from_card=True)
    only = course_of(plan, answers(("lamp", "as-expected")))
    shown = console(replace(made, course=only))
    assert "FROM A CARD IN PART: board 0007 passed 1 of 1 steps" in shown
    assert "Filled in from a card in part" in shown


def test_the_session_ends_or_goes_to_a_step_again():
    assert asked_by(MADE, "enter") == (Quit(),)
    assert after(MADE, "j").mode == "list"
    assert "no step was answered" in after(MADE, "b").notice


LINES = "line\n" * 40
READ = ReportRead(f"FAIL: board 0007\n\n{LINES}last")
WITH_PATH = state(None, "ended", is_known=True, path="runs/0007.run.jsonl")


def test_the_end_asks_for_the_report_and_says_the_verdict_in_words_and_where_all_lies():
    assert take(state(), None)[1] == (ReadReport(),)
    assert "r report" not in console(WITH_PATH)
    shown = console(after_event(WITH_PATH, READ))
    assert "INCOMPLETE: board 0007 passed 0 of 9 steps" in shown
    assert "Run file: runs/0007.run.jsonl" in shown
    assert "termprobe report runs/0007.run.jsonl" in shown and "r report" in shown


def test_the_report_is_read_there():
    reading = after(after_event(WITH_PATH, READ), "r")
    assert reading.mode == "reading" and "FAIL: board 0007" in console(reading, 80, 24)
    assert after(reading, "escape").mode == "ended"


def test_a_report_that_is_no_longer_true_is_not_shown():
    assert take(after_event(WITH_PATH, READ), "hello")[0].report == ""


CAUSE = "What would explain it (97%): data line 3 of RAM bank 1 is stuck at 0"


def test_the_cause_is_told_in_a_line_as_long_as_it_is_true():
    told = after_event(WITH_PATH, replace(READ, cause=CAUSE))
    assert "What would explain it" not in console(after_event(WITH_PATH, READ))
    assert CAUSE in " ".join(console(told, 120, 30).split())
    assert take(told, "hello")[0].cause == ""
