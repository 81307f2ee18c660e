"""Runs, sessions and walks killed at random moments, and gone on with: no answer is lost."""

import functools
import pathlib
import random
import tempfile

from helpers import crash, killed_session, killed_walk
from helpers.kills import assert_kept, killed_run
from termprobe.clock import CrankedClock

from .tables import heading, row

USUAL = 400
KILLS_OF_ONE_FILE = 50


def attack(request):
    """Kill as often as is asked for, print how often an answer was lost; return that."""
    count = request.how_many(USUAL)
    heading("Killed at random moments", *("what", "kills", "answers acknowledged", "failed"))
    names = [name for name in VICTIMS if name.startswith(request.only)]
    return sum(_killed(name, count, request.seed) for name in names)


def _killed(name, count, seed):
    answers, wrong = 0, []
    for number in range(0, count, KILLS_OF_ONE_FILE):
        chance = random.Random(f"{seed} {name} {number}")
        with tempfile.TemporaryDirectory(prefix="termprobe-attack-") as folder:
            path = pathlib.Path(folder, "a.run.jsonl")
            try:
                answers += VICTIMS[name](path, chance, min(KILLS_OF_ONE_FILE, count - number))
            except AssertionError as error:
                wrong.append(f"    {name} from kill {number} on: {error}")
    row(name, count, answers, len(wrong))
    for one in wrong:
        print(one, flush=True)
    return len(wrong)


def _kills(carry_out, path, chance, kills, longest_s):
    """Return how many answers were acknowledged over so many `kills` of one run."""
    seen = []
    for kill in range(1, kills + 1):
        seen += killed_run(carry_out, chance.randrange(5), chance.uniform(0, longest_s))
        assert_kept(path, seen, kill)
    return len(seen)


def _run(path, chance, kills):
    return _kills(functools.partial(crash.carry_out, path), path, chance, kills, 0.01)


def _session(path, chance, kills):
    made = killed_session.long_plan()
    killed_session.begun(made, path)
    session = functools.partial(killed_session.answer_all, made, path)
    return _kills(session, path, chance, kills, 0.06)


def _walk(path, chance, kills):
    made = killed_walk.long_plan()
    walk = functools.partial(killed_walk.carry_out, made, path)
    return _kills(walk, path, chance, kills, 0.01)


def _resumed(path, chance, kills):
    """Kill a run while it is gone on with: none is ready before that."""
    crash.journal_at(path, CrankedClock()).close()

    def go_on(tell):
        tell("ready")
        crash.carry_out(path, lambda name: name == "ready" or tell(name))

    seen = []
    for kill in range(1, kills + 1):
        seen += killed_run(go_on, 0, chance.uniform(0, 0.06))
        assert_kept(path, seen, kill)
    return len(seen)


VICTIMS = {"run": _run, "resume": _resumed, "session": _session, "keys": _walk}
