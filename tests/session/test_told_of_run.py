"""Groups and remarks go to the run and nowhere else."""

from helpers.bench import look
from helpers.run_bench import RunBench
from termprobe.journal.records import Noted, Sent
from termprobe.session.messages import Note, SendGroups
from termprobe.session.told_of_run import note, send_groups


def test_groups_are_of_the_step_in_progress_and_a_remark_of_its_own(tmp_path):
    bench = RunBench(tmp_path, look("a"))
    groups = SendGroups(bench.plan.steps[0].groups)
    send_groups(bench.run, groups)
    bench.run.begin(bench.plan.steps[0])
    send_groups(bench.run, groups)
    note(bench.run, Note("dim", "a"))
    note(bench.run, Note("late"))
    assert [one.step for one in bench.records(Sent)] == ["a", "a"]
    assert [(one.text, one.step) for one in bench.records(Noted)] == [("dim", "a"), ("late", None)]
