"""A full-screen session that lasts for hours of a simulated clock."""

import itertools

from helpers.bench_plan import PROFILE, look, plan, text
from helpers.console import Console, hold
from termprobe.board.board import Board
from termprobe.board.link import SimLink
from termprobe.clock import CrankedClock
from termprobe.journal.file import Journal
from termprobe.journal.records import BoardUnderTest, Header
from termprobe.link.base import LineFormat
from termprobe.runner.run import Run
from termprobe.session.app import Session
from termprobe.session.opening import first_state
from termprobe.session.worker import Worker

LOOK_S = 300.0
BOARD = BoardUnderTest("0007")
FAST = LineFormat(19200, 7, "even", 1)


def hold_for(seconds, path, see):
    """Hold a session in which a look is answered every five minutes; its run file is at `path`.

    `see(seconds)` is called whenever the console has gone on from an answer.
    """
    count = int(seconds / LOOK_S) + 2
    titles = [f"Number {number:04}" for number in range(count)]
    made = plan(
        *(look(f"look-{title[-4:]}", "screen", text(title[-4:]), title=title) for title in titles)
    )
    clock = CrankedClock()
    journal = Journal.create(path, Header(BOARD, plan_hash=made.hash), clock)
    link = SimLink(Board(PROFILE), clock, FAST)

    def run(line, listener):
        return Run(made, line, journal, clock, [], listener)

    def session(pipe, output):
        state = first_state(made, PROFILE, FAST, BOARD, "sim:", journal.records)

        def worker(post):
            return Worker(link, run, None, post, clock, PROFILE)

        return Session(state, worker, clock, pipe, output)

    def builder(console):
        console.press("\r", f"- {titles[0]}", "y as expected")
        begun_s = clock.now_s()
        for _, following in itertools.pairwise(titles):
            clock.sleep_until(clock.now_s() + LOOK_S)
            console.press("y", f"- {following}", "y as expected")
            see(clock.now_s() - begun_s)

    hold(session, builder, Console(80, 24))
    journal.close()
