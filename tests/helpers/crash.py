"""A program to be killed: carries out a long made-up plan, prints each step's id once its answer is safe. Argument: run file."""

import os
import sys

from termprobe.clock import CrankedClock
from termprobe.journal.file import Journal
from termprobe.runner.events import Answered
from termprobe.runner.run import Run

sys.path.insert(0, os.path.dirname(os.path.dirname(__file__)))
from helpers.bench import FakeLink, Says, look, plan  # noqa: E402

COUNT = 1000
PLAN = plan(*(look(f"step-{number}") for number in range(COUNT)))


def say(event):
    if isinstance(event, Answered):
        os.write(1, f"{event.step.id}\n".encode())


def main(path):
    clock = CrankedClock()
    journal = (
        Journal.reopen(path, clock)
        if os.path.exists(path)
        else Journal.create(path, {"board": {"serial": "0042"}}, clock)
    )
    run = Run(PLAN, FakeLink(clock, lambda data: b"k"), journal, clock, [Says()], say)
    os.write(1, b"ready\n")
    while (step := run.next_step()) is not None:
        run.perform(step)
        run.record(step, run.ask(step))


if __name__ == "__main__":
    main(sys.argv[1])
