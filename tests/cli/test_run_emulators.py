"""Real terminal emulators, driven over a pty, pass every look and reply under ecma48-24x80."""

import json

import pytest

from helpers.emulators import gnu_screen, headless_terminal, tmux
from helpers.program import called
from termprobe.plan.compile import compile_plan
from termprobe.profile.load import load as load_profile
from termprobe.script.load import load as load_script

RUN = ("run", "--profile", "ecma48-24x80", "--script", "acceptance")
EMULATORS = {"tmux": tmux, "screen": gnu_screen, "headless": headless_terminal}
# Where an emulator differs from ECMA-48 or the profile, on purpose and known: step id -> reason.
COLUMN_KEPT = {
    "insert-line": "ECMA-48 8.3.67 moves to the line home position; it keeps the column",
    "delete-line": "ECMA-48 8.3.32 moves to the line home position; it keeps the column",
}
DIFFERENCES = {
    "tmux": COLUMN_KEPT,
    "screen": COLUMN_KEPT,
    "headless": {},
}
AGAIN = [f"--stage={stage}" for stage in ("characters", "edges", "editing", "tabs", "replies")]
"""Of the second run, which shows what the first has left behind."""
PLAN = compile_plan(load_profile("ecma48-24x80"), load_script("acceptance"))
WANTED = {step.id for step in PLAN.steps if step.kind in ("look", "reply") and not step.not_fitted}


@pytest.mark.slow
@pytest.mark.parametrize("name", EMULATORS)
def test_an_emulator_passes_every_look_and_reply_and_when_it_is_run_again(name, tmp_path):
    """The second run is on the same terminal, which nobody has switched off in between."""
    assert len(WANTED) >= 30
    with EMULATORS[name](tmp_path) as (port, dump):
        for number, part in (("first", ()), ("second", AGAIN)):
            line = ("--port", port, "--speed", "115200", "--dump", dump)
            out = ("--board", f"{name}-{number}", "--out", tmp_path, "--json")
            done = called(*RUN, *part, *line, *out, limit_s=240)
            steps = {step["id"]: step for step in json.loads(done.stdout)["steps"]}
            tried = WANTED & steps.keys()
            assert len(tried) >= 5 and (part or tried == WANTED)
            failed = {step_id for step_id in tried if steps[step_id]["verdict"] != "pass"}
            assert failed == tried & DIFFERENCES[name].keys(), (
                number,
                [steps[step_id] for step_id in sorted(failed)],
                done.stderr,
            )
            # Questions to a person stay unanswered; the second run has none.
            expected_code = 1 if failed else (0 if part else 4)
            assert done.returncode == expected_code
