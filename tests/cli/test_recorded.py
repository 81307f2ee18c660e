"""Run files, read back."""

import contextlib

import pytest

from termprobe.cli.bench import open_bench
from termprobe.cli.recorded import load_run
from termprobe.cli.request import BenchRequest, stage_choice
from termprobe.cli.run_texts import speed_of
from termprobe.cli.task import task_of
from termprobe.clock import CrankedClock
from termprobe.errors import FileError
from termprobe.journal.records import BoardUnderTest, LinkUsed


@pytest.fixture(name="path")
def _path(tmp_path):
    """Return the path of a run file in which nothing is answered yet."""
    request = BenchRequest(
        "sim:",
        "singlebyte-24x80",
        "acceptance",
        BoardUnderTest("0007"),
        folder=str(tmp_path),
        choice=stage_choice(["fields"]),
    )
    bench = open_bench(request, CrankedClock())
    bench.close()
    return bench.path


def test_a_run_holds_all_that_it_was_made_with(path):
    recorded = load_run(path)
    assert recorded.path == str(path) and recorded.profile.id == "singlebyte-24x80"
    assert {step.stage for step in recorded.plan.steps} == {"fields"}
    report = recorded.report
    assert (report.verdict.verdict, report.path) == ("incomplete", str(path))
    assert report.plan == recorded.plan and report.scope.kind == "part"


@pytest.mark.parametrize("text", ["", "not a run file\n", '{"kind": "header"}\n'])
def test_what_is_no_run_file_is_refused(tmp_path, text):
    path = tmp_path / "x.run.jsonl"
    path.write_text(text)
    with pytest.raises(FileError, match="must be a run file, BOARD-DATE.run.jsonl"):
        load_run(path)


def test_of_a_damaged_first_line_it_is_said_what_is_wrong(path):
    path.write_bytes(path.read_bytes().replace(b"0007", b"0008", 1))
    with pytest.raises(FileError, match=r"this one does not \(byte 0: a damaged"):
        load_run(path)


def test_limits_that_go_by_the_speed_are_those_of_the_run(tmp_path):
    words = ("sim:", "singlebyte-24x80", "acceptance", BoardUnderTest("0007"))
    more = {"folder": str(tmp_path), "speed_baud": 300, "choice": stage_choice(["clock"])}
    request = BenchRequest(*words, **more)
    with contextlib.closing(open_bench(request, CrankedClock())) as bench:
        begun = bench.plan.step("line-clock")
    assert (begun.low, begun.high) == pytest.approx((15.68 * 300, 16.32 * 300))
    recorded = load_run(bench.path)
    assert recorded.plan.step("line-clock") == begun
    assert task_of(BenchRequest("sim:"), recorded).plan.hash == recorded.plan.hash


@pytest.mark.parametrize("link", [None, LinkUsed("sim:", ""), LinkUsed("sim:", "fast")])
def test_of_a_run_without_a_speed_it_is_not_known(link):
    assert speed_of(link) is None
