"""A stage is left in the session: the line's thread records it, the console goes on behind it."""

from helpers.bench import Says, look
from helpers.run_bench import RunBench
from termprobe.journal.records import Answered
from termprobe.session.stage_left import SkipStage, leave_stage


def test_each_step_of_the_rest_gets_the_reason(tmp_path):
    looks = [look("a", stage="one"), look("b", stage="one"), look("c", stage="two")]
    bench = RunBench(tmp_path, *looks, observers=[Says()])
    step = leave_stage(bench.run, SkipStage("a", "no plug"))
    assert step.id == "a" and bench.run.course.next_step().id == "c"
    said = [(one.step, one.answer.word, one.answer.note) for one in bench.records(Answered)]
    assert said == [("b", "skipped", "no plug"), ("a", "skipped", "no plug")]
