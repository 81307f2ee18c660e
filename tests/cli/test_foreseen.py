"""What the looks of a bench may show is predicted where a board of the profile can be simulated."""

import contextlib

from termprobe.cli.assembly import new_run
from termprobe.cli.bench import open_bench
from termprobe.cli.foreseen import predictor
from termprobe.cli.request import BenchRequest, stage_choice
from termprobe.clock import CrankedClock
from termprobe.journal.records import BoardUnderTest


@contextlib.contextmanager
def bench_of(folder, stage, profile="singlebyte-24x80"):
    board, choice = BoardUnderTest("0007"), stage_choice([stage])
    port = "sim:" if profile == "singlebyte-24x80" else "loop://"
    wanted = BenchRequest(port, profile, "acceptance", board, folder=str(folder), choice=choice)
    with contextlib.closing(open_bench(wanted, CrankedClock())) as bench:
        yield bench


def test_a_look_that_was_sent_has_pictures_by_the_records_so_far(tmp_path):
    with bench_of(tmp_path, "fields") as bench:
        predict, run = predictor(bench), new_run(bench)
        step = bench.plan.steps[0]
        run.perform(step)
        found = predict(step.id, run.journal.records, run.verdicts())
    assert found.step_id == step.id and len(found.found) == 8
    assert all(one.sentence for one in found.found)


def test_without_looks_nothing_is_prepared(tmp_path):
    with bench_of(tmp_path, "supply") as bench:
        assert predictor(bench) is None


def test_without_a_circuit_nothing_is_predicted(tmp_path):
    with bench_of(tmp_path, "fields", "ecma48-24x80") as bench:
        assert predictor(bench) is None
