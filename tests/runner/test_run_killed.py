"""A run that is killed at any moment has lost no step whose answer it had acknowledged.

It goes on behind the last of them.
"""

import functools
import os
import random

import pytest

from helpers.crash import PLAN, carry_out
from helpers.kills import assert_kept, killed_run
from termprobe.journal.records import Answered
from termprobe.verdict.judge import judge

KILLS = 25


@pytest.mark.slow
def test_killed_at_random_moments_no_answered_step_is_lost(tmp_path):
    seed = int(os.environ.get("TERMPROBE_SEED", "1978"))
    moments, path, known = random.Random(seed), tmp_path / "a.run.jsonl", []
    run = functools.partial(carry_out, path)
    for number in range(1, KILLS + 1):
        fresh = killed_run(run, moments.randrange(5), moments.uniform(0, 0.01))
        recording = assert_kept(path, [*known, *fresh], number)
        answered = [record.step for record in recording.records if isinstance(record, Answered)]
        note = f"kill {number}, seed {seed}"
        assert answered[: len(known) + len(fresh)] == known + fresh, note
        in_order = [step.id for step in PLAN.steps[: len(answered)]]
        assert answered == in_order, note  # none left out, none asked twice
        known = answered
    assert KILLS < len(known) < len(PLAN.steps)
    assert judge(PLAN, recording.records).count("pass") == len(known)
