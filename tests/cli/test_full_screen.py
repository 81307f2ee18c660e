"""The bench on a full screen. What is shown and how keys act is tested with the session."""

import pytest

from termprobe.cli import full_screen
from termprobe.cli.bench import open_bench
from termprobe.cli.request import BenchRequest, stage_choice
from termprobe.clock import CrankedClock
from termprobe.journal.records import BoardUnderTest
from termprobe.link.base import LineFormat
from termprobe.session import app


class Session:
    """Stands for the application: keeps what it is given, starts nothing, ends interrupted."""

    def __init__(self, state, new_worker, clock):
        self.state, self.clock = state, clock
        self.worker = new_worker(lambda event: None)
        Session.last = self

    def run(self):
        return True


@pytest.fixture(name="held")
def _held(tmp_path, monkeypatch):
    """Return a function that holds a session at a port and returns (bench, stand-in, result)."""
    monkeypatch.setattr(app, "Session", Session)

    def hold(port, **fields):
        request = BenchRequest(
            port,
            "singlebyte-24x80",
            "acceptance",
            BoardUnderTest("0007", "B"),
            folder=str(tmp_path),
            choice=stage_choice(["fields"]),
        )
        bench = open_bench(request, CrankedClock())
        try:
            return bench, full_screen.hold_full_screen(bench, **fields), Session.last
        finally:
            bench.close()

    return hold


def test_the_session_begins_with_what_is_on_the_bench(held):
    bench, is_interrupted, session = held("sim:")
    state = session.state
    assert is_interrupted is True and session.clock is bench.clock
    assert (state.plan, state.profile) == (bench.plan, bench.profile)
    assert state.is_practice and not state.is_free
    assert any(str(bench.path) in text for text in state.opening)
    assert state.course.positions == {
        option.name: option.normal for option in bench.profile.options
    }
    assert state.ending == ()


def test_keys_may_come_in_any_order(held):
    assert held("sim:", is_free=True, wait_s=2.0)[2].state.is_free


def test_the_worker_has_the_run_of_the_bench_and_can_open_its_line_in_another_format(held):
    bench, _, session = held("sim:")
    assert session.worker.run_of_plan.plan is bench.plan
    other = session.worker._line._open_line(LineFormat(300, 7, "even", 1))
    assert other.board is bench.board and other.format.speed_baud == 300


def test_bells_that_are_not_wanted_are_off(held):
    state = held("sim:", muted=["presses"])[2].state
    assert (state.has_press_bell, state.has_look_bell) == (False, True)
    state = held("sim:", muted=["looks"])[2].state
    assert (state.has_press_bell, state.has_look_bell) == (True, False)


def test_the_worker_can_tell_what_the_run_file_shows(held):
    bench, _, session = held("sim:")
    read = session.worker._read_report()
    assert "board 0007" in read.text.splitlines()[0]
    assert session.state.path == str(bench.path)


def test_a_hidden_fault_is_told_at_the_end(held):
    bench, _, session = held("sim:random")
    (told,) = session.state.ending
    assert told.startswith(f"The hidden fault was {bench.hidden_fault}: ")
