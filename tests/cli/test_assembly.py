"""The parts on the bench, put together."""

import dataclasses
import io

import pytest

from helpers.bench import FakeLink
from termprobe.cli.assembly import carry_out, hands_at, new_run, positions, unwatched_clock
from termprobe.cli.bench import open_bench
from termprobe.cli.observers import simulated_hands, simulated_screen
from termprobe.cli.recorded import load_run
from termprobe.cli.request import BenchRequest, stage_choice
from termprobe.clock import CrankedClock, SystemClock
from termprobe.journal.reading import read
from termprobe.journal.records import BoardUnderTest, Finished, OptionSet
from termprobe.runner.asking import Hands


@pytest.fixture(name="bench")
def _bench(tmp_path):
    request = BenchRequest(
        "sim:",
        "singlebyte-24x80",
        "acceptance",
        BoardUnderTest("0007"),
        folder=str(tmp_path),
        choice=stage_choice(["fields"]),
    )
    bench = open_bench(request, CrankedClock())
    yield bench
    bench.close()


def test_a_simulated_board_needs_no_time_and_keeps_the_date():
    clock = unwatched_clock("sim:")
    assert isinstance(clock, CrankedClock)
    assert clock.date()[:4] == SystemClock().date()[:4]
    assert isinstance(unwatched_clock("/dev/ttyS0"), SystemClock)


def test_a_run_is_paced_as_the_profile_needs_it(bench):
    run = new_run(bench)
    assert run.plan is bench.plan and run.journal is bench.journal and run.clock is bench.clock
    other = FakeLink(bench.clock)
    assert new_run(bench, link=other).link_format == other.format


def test_switches_stand_as_normal_or_as_the_run_last_set_them(bench):
    normal = {option.name: option.normal for option in bench.profile.options}
    moved = dict.fromkeys(normal, "moved")
    records = tuple(
        OptionSet(name, position) for name in moved for position in ("elsewhere", "moved")
    )
    resumed = dataclasses.replace(bench, records=records)
    assert positions(resumed) == normal, "a simulated board is new each time"
    real = dataclasses.replace(resumed, board=None)
    assert positions(real) == moved
    assert positions(dataclasses.replace(real, records=())) == normal


def test_a_person_is_at_a_real_board_only(bench):
    person = Hands(*(lambda *given: None for _ in range(2)))
    assert hands_at(dataclasses.replace(bench, board=None), person) is person
    hands = hands_at(bench, person)
    assert person.type_word is not hands.type_word and person.press is not hands.press


def test_a_run_is_carried_out_and_shows_how_far_it_is(bench):
    told = io.StringIO()
    observers = [*simulated_screen(bench), *simulated_hands(bench)]
    carry_out(bench, observers, hands_at(bench), told)
    assert isinstance(read(bench.path).records[-1], Finished)
    assert load_run(bench.path).report.verdict.verdict == "pass"
    assert told.getvalue().splitlines() == [stage.title for stage in bench.plan.stages]
