"""Real terminal emulators, driven over a pty, pass every look and reply of the acceptance script under ecma48-24x80."""

import json
import subprocess
import sys

import pytest

from termprobe.plan.compile import compile_plan
from termprobe.profile.load import load as load_profile
from termprobe.script.load import load as load_script
from helpers.emulators import headless_terminal, tmux

# Where an emulator differs from ECMA-48 or the profile, on purpose and known: step id -> reason.
DIFFERENCES = {
    "tmux": {},
    "headless": {},
}


@pytest.mark.parametrize("name, emulator", [("tmux", tmux), ("headless", headless_terminal)])
def test_an_emulator_passes_every_look_and_reply(name, emulator, tmp_path):
    plan = compile_plan(load_profile("ecma48-24x80"), load_script("acceptance"))
    wanted = {
        step.id for step in plan.steps if step.kind in ("look", "reply") and not step.not_fitted
    }
    with emulator(tmp_path) as (port, dump):
        done = subprocess.run(
            [
                sys.executable,
                "-m",
                "termprobe.cli.main",
                "run",
                "--profile",
                "ecma48-24x80",
                "--script",
                "acceptance",
                "--port",
                port,
                "--speed",
                "115200",
                "--board",
                name,
                "--dump",
                dump,
                "--out",
                str(tmp_path),
                "--json",
            ],
            stdin=subprocess.DEVNULL,
            capture_output=True,
            text=True,
            timeout=240,
            check=False,
        )
    steps = {step["id"]: step for step in json.loads(done.stdout)["steps"]}
    failed = {step_id for step_id in wanted if steps[step_id]["verdict"] != "pass"}
    assert len(wanted) >= 30
    assert failed == set(DIFFERENCES[name]), (
        f"{[steps[step_id] for step_id in sorted(failed)]}\n{done.stderr}"
    )
    assert done.returncode == (1 if DIFFERENCES[name] else 4), (
        "questions to a person stay unanswered"
    )
