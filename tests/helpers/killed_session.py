"""A long session on a full screen, answered by a builder who is quick, to be killed."""

import itertools

from helpers.bench_plan import PROFILE, look, plan, text
from helpers.console import Console, hold
from termprobe.board.board import Board
from termprobe.board.link import SimLink
from termprobe.clock import SystemClock
from termprobe.journal.file import Journal
from termprobe.journal.records import BoardUnderTest, Header
from termprobe.link.base import LineFormat
from termprobe.runner.run import Run
from termprobe.session.app import Session
from termprobe.session.opening import first_state
from termprobe.session.react import answering
from termprobe.session.worker import Worker
from termprobe.verdict.judge import judge

STEPS = 300
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


def begun(made, path):
    """Begin a run file for the plan `made` at `path`."""
    Journal.create(path, Header(BOARD, plan_hash=made.hash), SystemClock()).close()
