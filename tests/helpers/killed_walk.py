"""A long walk over the keys of a simulated board, to be killed."""

import dataclasses
import os

from helpers.bench import HEADER
from helpers.key_walk_bench import HAND_S, LINE, PLAN, PROFILE
from termprobe.board.board import Board
from termprobe.board.link import SimLink
from termprobe.clock import CrankedClock
from termprobe.journal.file import Journal
from termprobe.runner.key_walk import KeyWalk, PressTaken
from termprobe.runner.run import Run

TIMES = 6


def long_plan():
    """Return a plan in which each press of a keyboard stands several times."""
    presses = [step for step in PLAN.steps if step.kind == "press"]
    steps = [
        dataclasses.replace(step, id=f"{step.id}/{number}")
        for number in range(TIMES)
        for step in presses
    ]
    return dataclasses.replace(PLAN, steps=tuple(steps))


def carry_out(made, path, tell):
    """Go on with the walk at `path`; `tell` the id of each press once its answer is safe."""
    clock, board = CrankedClock(), Board(PROFILE)
    if os.path.exists(path):
        journal = Journal.reopen(path, clock)
    else:
        journal = Journal.create(path, HEADER, clock)
    run = Run(made, SimLink(board, clock, LINE), journal, clock)

    def press(step):
        clock.sleep_until(clock.now_s() + HAND_S)
        board.press(step.press.key, frozenset(step.press.modifiers))

    def say(event):
        if isinstance(event, PressTaken) and event.step:
            tell(event.step.id)

    tell("ready")
    KeyWalk(run, hand=press, listener=say).walk()
