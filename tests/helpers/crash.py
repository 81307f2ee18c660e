"""A long made-up run without a screen, to be killed."""

import os

from helpers.bench import HEADER, FakeLink, Says, look, plan
from termprobe.clock import CrankedClock
from termprobe.journal.file import Journal
from termprobe.journal.records import Answered
from termprobe.runner.run import Run

COUNT = 1000
PLAN = plan(*(look(f"step-{number}") for number in range(COUNT)))


def journal_at(path, clock):
    if os.path.exists(path):
        return Journal.reopen(path, clock)
    return Journal.create(path, HEADER, clock)


def carry_out(path, tell):
    """Go on with the run at `path`; `tell` the id of each step once its answer is safe."""

    def say(event):
        if isinstance(event, Answered):
            tell(event.step)

    clock = CrankedClock()
    link = FakeLink(clock, lambda data: b"k")
    run = Run(PLAN, link, journal_at(path, clock), clock, [Says()], say)
    tell("ready")
    while (step := run.course.next_step()) is not None:
        run.perform(step)
        run.record(step, run.ask(step))
