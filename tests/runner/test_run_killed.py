"""A run that is killed at any moment has lost no step whose answer it had acknowledged.

It goes on behind the last of them.
"""

import os
import random
import signal
import subprocess
import sys
import time

import pytest

from helpers.crash import PLAN
from helpers.paths import TESTS
from termprobe.journal.reading import read
from termprobe.journal.records import Answered
from termprobe.verdict.judge import judge

PROGRAM = TESTS / "helpers" / "crash.py"
KILLS = 25


def killed_after(path, count, delay_s):
    """Return the ids that a run on `path` acknowledged before it was killed.

    It was, `delay_s` after it had acknowledged `count`.
    """
    with subprocess.Popen([sys.executable, PROGRAM, path], stdout=subprocess.PIPE) as program:
        lines = [program.stdout.readline().decode() for _ in range(1 + count)]
        time.sleep(delay_s)
        os.kill(program.pid, signal.SIGKILL)
        printed = "".join(lines) + program.stdout.read().decode()
    ready, *acknowledged = printed[: printed.rfind("\n") + 1].split()
    assert ready == "ready"
    return acknowledged


@pytest.mark.slow
def test_killed_at_random_moments_no_answered_step_is_lost(tmp_path):
    seed = int(os.environ.get("TERMPROBE_SEED", "1978"))
    moments, path, known = random.Random(seed), tmp_path / "a.run.jsonl", []
    for number in range(KILLS):
        fresh = killed_after(path, moments.randrange(5), moments.uniform(0, 0.01))
        recording = read(path)
        answered = [record.step for record in recording.records if isinstance(record, Answered)]
        note = f"kill {number}, seed {seed}"
        assert answered[: len(known) + len(fresh)] == known + fresh, note
        in_order = [step.id for step in PLAN.steps[: len(answered)]]
        assert answered == in_order, note  # none left out, none asked twice
        known = answered
    assert KILLS < len(known) < len(PLAN.steps)
    assert judge(PLAN, recording.records).count("pass") == len(known)
