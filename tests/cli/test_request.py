"""What a command line asks for of the bench."""

import argparse

import pytest

from helpers.program import run
from termprobe.cli.request import (
    BenchRequest,
    add_bench_arguments,
    add_stage_argument,
    bench_request,
    stage_choice,
)
from termprobe.errors import UsageError
from termprobe.journal.records import BoardUnderTest
from termprobe.link.base import is_simulated
from termprobe.plan.compile import compile_plan
from termprobe.profile.load import load as load_profile
from termprobe.script.load import load as load_script

PROFILE = load_profile("singlebyte-24x80")


def parsed(*words, **fields):
    parser = argparse.ArgumentParser()
    add_bench_arguments(parser, **fields)
    add_stage_argument(parser)
    return parser.parse_args(words)


def test_a_port_alone_asks_for_everything_by_default():
    request = bench_request(parsed("--port", "sim:"), None)
    assert request == BenchRequest("sim:") and request.board == BoardUnderTest("")


def test_every_option_has_its_field():
    words = "--port /dev/x --profile p --script s --speed 300 --board 7 --revision B --builder N"
    more = ("--fitted", "no bell", "--batch", "2026-07", "--resume", "r", "--out", "o")
    request = bench_request(parsed(*words.split(), *more), None, is_of_keys=True)
    assert request == BenchRequest(
        port="/dev/x",
        profile="p",
        script="s",
        board=BoardUnderTest("7", "B", "N", "no bell", "2026-07"),
        speed_baud=300,
        resume="r",
        folder="o",
        is_of_keys=True,
    )


def test_a_command_may_have_its_own_script():
    assert not hasattr(parsed(has_script=False), "script")


def test_a_port_must_be_named():
    with pytest.raises(UsageError, match="--port must name the port of the board"):
        bench_request(parsed(), None)


def test_simulated_boards_are_told_by_their_port():
    assert is_simulated("sim:") and is_simulated("sim:decoder/dead/clear")
    assert not is_simulated("/dev/sim:")


def test_stages_are_chosen_by_name():
    plan = compile_plan(PROFILE, load_script("acceptance"))
    assert stage_choice([]) is None
    part = stage_choice(["fields", "cursor"])(PROFILE, plan)
    assert {step.stage for step in part.steps} == {"fields", "cursor"}
    with pytest.raises(UsageError, match="--stage must be one of"):
        stage_choice(["nowhere"])(PROFILE, plan)


@pytest.mark.parametrize("speed", ["0", "-9600", "12x", "9600.5"])
def test_a_speed_that_no_line_has_is_refused_with_an_example(tmp_path, speed):
    done = run(tmp_path, f"--speed={speed}")
    assert done.returncode == 2 and f"for example 9600, not '{speed}'" in done.stderr
    assert not list(tmp_path.iterdir())
