"""The session killed at random moments and resumed: nothing that was answered is ever lost."""

import functools
import random

import pytest

from helpers.examples import one_in
from helpers.killed_session import answer_all, begun, long_plan
from helpers.kills import assert_kept, killed_run

KILLS = len(one_in(2, range(50)))


@pytest.mark.slow
def test_kills_lose_no_answer(tmp_path):
    made, path, chance = long_plan(), tmp_path / "run.jsonl", random.Random(7)
    begun(made, path)
    session = functools.partial(answer_all, made, path)
    seen = []
    for kill in range(1, KILLS + 1):
        seen += killed_run(session, chance.randrange(4), chance.uniform(0.0, 0.06))
        assert_kept(path, seen, kill)
    assert len(seen) >= KILLS, "the kills came too early to prove anything"
