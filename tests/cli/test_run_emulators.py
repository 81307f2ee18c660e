"""Real terminal emulators, driven over a pty, pass every look and reply under ecma48-24x80."""

import json

import pytest

from helpers.emulators import headless_terminal, tmux
from helpers.program import called
from termprobe.plan.compile import compile_plan
from termprobe.profile.load import load as load_profile
from termprobe.script.load import load as load_script

RUN = ("run", "--profile", "ecma48-24x80", "--script", "acceptance")
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
        line = ("--port", port, "--speed", "115200", "--dump", dump)
        done = called(*RUN, *line, "--board", name, "--out", tmp_path, "--json", limit_s=240)
    steps = {step["id"]: step for step in json.loads(done.stdout)["steps"]}
    failed = {step_id for step_id in wanted if steps[step_id]["verdict"] != "pass"}
    assert len(wanted) >= 30
    assert failed == set(DIFFERENCES[name]), (
        f"{[steps[step_id] for step_id in sorted(failed)]}\n{done.stderr}"
    )
    assert done.returncode == (1 if DIFFERENCES[name] else 4), (
        "questions to a person stay unanswered"
    )
