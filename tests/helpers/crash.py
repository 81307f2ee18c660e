"""A program to be killed: carries out a long made-up plan, its argument being the run file.

It prints each step's id once its answer is safe.
"""

import os
import sys

from termprobe.clock import CrankedClock
from termprobe.journal.file import Journal
from termprobe.journal.records import Answered
from termprobe.runner.run import Run

sys.path.insert(0, os.path.dirname(os.path.dirname(__file__)))
from helpers.bench import HEADER, FakeLink, Says, look, plan  # noqa: E402

COUNT = 1000
PLAN = plan(*(look(f"step-{number}") for number in range(COUNT)))


def say(event):
    if isinstance(event, Answered):
        os.write(1, f"{event.step}\n".encode())


def journal_at(path, clock):
    if os.path.exists(path):
        return Journal.reopen(path, clock)
    return Journal.create(path, HEADER, clock)


def main(path):
    clock = CrankedClock()
    link = FakeLink(clock, lambda data: b"k")
    run = Run(PLAN, link, journal_at(path, clock), clock, [Says()], say)
    os.write(1, b"ready\n")
    while (step := run.course.next_step()) is not None:
        run.perform(step)
        run.record(step, run.ask(step))


if __name__ == "__main__":
    main(sys.argv[1])
