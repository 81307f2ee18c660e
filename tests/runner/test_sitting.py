"""How a sitting at a run ends."""

import pytest

from helpers.bench import look
from helpers.run_bench import RunBench
from termprobe.errors import LinkLostError
from termprobe.journal.records import AS_EXPECTED, Answer, Finished, Record, Stopped
from termprobe.runner.sitting import sitting


@pytest.fixture(name="bench")
def _bench(tmp_path):
    return RunBench(tmp_path, look("a"))


def last_record(bench):
    return bench.records(Record)[-1]


def test_a_sitting_left_early_was_stopped_by_the_builder(bench):
    with sitting(bench.run):
        pass
    assert last_record(bench).reason == "stopped by the builder"


def test_a_sitting_in_which_all_was_answered_has_finished(bench):
    with sitting(bench.run):
        bench.run.record(bench.plan.steps[0], Answer(AS_EXPECTED))
    assert isinstance(last_record(bench), Finished)


def test_an_interrupt_is_written_down_and_passes_through(bench):
    with pytest.raises(KeyboardInterrupt), sitting(bench.run):
        raise KeyboardInterrupt
    assert last_record(bench).reason == "interrupted"


def test_after_a_lost_line_the_sitting_can_go_on(bench):
    with pytest.raises(LinkLostError), sitting(bench.run):
        raise LinkLostError("gone")
    assert not bench.records(Stopped)
