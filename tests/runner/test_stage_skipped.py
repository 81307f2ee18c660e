"""The rest of a stage is left out for one reason, and what was answered of it stays."""

import pytest

from helpers.bench import Says, look
from helpers.run_bench import RunBench
from termprobe.journal.records import AS_EXPECTED, DIFFERS, Answer, Answered
from termprobe.observer.base import BACK, SKIP_STAGE, Wish
from termprobe.runner.stage_skipped import rest_of_stage, skip_stage
from termprobe.runner.walk import carry_out

YES, NO = Answer(AS_EXPECTED), Answer(DIFFERS)
STAGES = {"a": "one", "b": "one", "c": "one", "d": "two"}
LEAVE = Wish(SKIP_STAGE, "no plug here")


def bench_of(folder, *said):
    looks = [look(step_id, stage=stage) for step_id, stage in STAGES.items()]
    return RunBench(folder, *looks, observers=[Says(*said)])


def noted(bench):
    """Return the answers in the order in which they were recorded."""
    return [(one.step, one.answer.word, one.answer.note) for one in bench.records(Answered)]


def test_a_plain_run_goes_on_at_the_next_stage_with_one_reason_for_all(tmp_path):
    bench = bench_of(tmp_path, YES, LEAVE, NO)
    assert carry_out(bench.run)
    assert bench.verdicts() == ["pass", "skipped", "skipped", "fail"]
    assert noted(bench)[1:3] == [("c", "skipped", LEAVE.reason), ("b", "skipped", LEAVE.reason)]


def test_back_leads_to_where_the_stage_was_left_and_an_answer_counts(tmp_path):
    bench = bench_of(tmp_path, YES, LEAVE, Wish(BACK), YES, YES)
    assert carry_out(bench.run)
    assert bench.verdicts() == ["pass", "pass", "skipped", "pass"]


def test_among_steps_gone_back_over_the_whole_stage_is_left_behind(tmp_path):
    bench = bench_of(tmp_path, YES, YES, Wish(BACK), Wish(BACK), LEAVE, YES)
    assert carry_out(bench.run)
    assert bench.verdicts() == ["pass", "pass", "skipped", "pass"]


def test_a_stage_that_is_left_is_left_when_the_run_goes_on(tmp_path):
    bench = bench_of(tmp_path, LEAVE, YES)
    carry_out(bench.run)
    resumed = bench.resumed()
    assert resumed.course.next_step() is None
    resumed.record(resumed.plan.step("a"), YES)
    assert resumed.course.word("a") == "pass", "it can be come back to"


@pytest.mark.parametrize("left", ["a", "b", "c"])
def test_the_rest_is_what_has_no_answer_with_the_step_in_hand_behind_it(tmp_path, left):
    bench = bench_of(tmp_path)
    others = [step_id for step_id in "abc" if step_id != left]
    rest = rest_of_stage(bench.run.course, bench.run.plan.step(left))
    assert [step.id for step in rest] == [*others, left]
    skip_stage(bench.run, bench.run.plan.step(left), "none")
    assert rest_of_stage(bench.run.course, bench.run.plan.step(left)) == ()
