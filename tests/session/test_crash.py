"""The session killed at random moments and resumed: nothing that was answered is ever lost."""

import itertools
import os
import random
import signal
import time

import pytest

from helpers.bench_plan import PROFILE, look, plan, text
from helpers.console import Console, hold
from helpers.examples import one_in
from termprobe.board.board import Board
from termprobe.board.link import SimLink
from termprobe.clock import SystemClock
from termprobe.journal.file import Journal
from termprobe.journal.reading import read
from termprobe.journal.records import Answered, BoardUnderTest, Header
from termprobe.link.base import LineFormat
from termprobe.runner.run import Run
from termprobe.session.app import Session
from termprobe.session.opening import first_state
from termprobe.session.react import answering
from termprobe.session.worker import Worker
from termprobe.verdict.judge import judge

KILLS, STEPS = len(one_in(2, range(50))), 300
BOARD = BoardUnderTest("0007")
FAST = LineFormat(19200, 7, "even", 1)


def long_plan():
    return plan(
        *(
            look(f"look-{number:03}", "screen", text(f"{number:03}"), title=f"Number {number:03}")
            for number in range(STEPS)
        )
    )


def answer_all(made, path, tell):
    """Go on with the run at `path` until killed.

    `tell(id)` is called whenever the console has gone on from an answered step.
    """
    answering.TOO_SOON_S = 0.0
    clock = SystemClock()
    journal = Journal.reopen(path, clock)
    link = SimLink(Board(PROFILE), clock, FAST)

    def session(pipe, output):
        def new_worker(post):
            return Worker(
                link,
                lambda line, listener: Run(made, line, journal, clock, [], listener),
                None,
                post,
                clock,
                PROFILE,
            )

        return Session(
            first_state(made, PROFILE, FAST, BOARD, "sim:", journal.records),
            new_worker,
            clock,
            pipe,
            output,
        )

    def builder(console):
        words = {found.id: found.verdict for found in judge(made, journal.records).steps}
        left = [step for step in made.steps if words[step.id] == "unanswered"]
        console.press("\r", f"- {left[0].title}", "y as expected")
        tell("ready")
        for step, following in itertools.pairwise(left):
            console.press("y", f"- {following.title}", "y as expected")
            tell(step.id)

    hold(session, builder, Console(80, 24))


def killed_run(made, path, count, delay_s):
    """Return the ids that the console had gone on from before the session was killed.

    That is done `delay_s` after `count` answers.
    """
    told, tell = os.pipe()
    child = os.fork()
    if child == 0:
        try:
            answer_all(made, path, lambda name: os.write(tell, f"{name}\n".encode()))
        finally:
            os._exit(1)
    os.close(tell)
    lines = os.fdopen(told, buffering=1)
    assert lines.readline() == "ready\n"
    told_first = [lines.readline().strip() for _ in range(count)]
    time.sleep(delay_s)
    os.kill(child, signal.SIGKILL)
    assert os.WIFSIGNALED(os.waitpid(child, 0)[1]), (
        "the session was to be killed, but had ended by itself"
    )
    with lines:
        return [*told_first, *lines.read().split()]


@pytest.mark.slow
def test_kills_lose_no_answer(tmp_path):
    made, path, chance = long_plan(), tmp_path / "run.jsonl", random.Random(7)
    Journal.create(path, Header(BOARD, plan_hash=made.hash), SystemClock()).close()
    seen = []
    for kill in range(1, KILLS + 1):
        seen += killed_run(made, path, chance.randrange(4), chance.uniform(0.0, 0.06))
        recording = read(path)
        answered = [record.step for record in recording.records if isinstance(record, Answered)]
        assert set(seen) <= set(answered), "an answer that the console had gone on from is lost"
        assert len(answered) == len(set(answered)), "no step was asked twice"
        assert len(recording.damages) <= kill, (
            "a kill tears at most the line that was being written"
        )
    assert len(seen) >= KILLS, "the kills came too early to prove anything"
