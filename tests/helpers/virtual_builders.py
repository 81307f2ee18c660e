"""Builders who are not there: what they would answer of a simulated board, with given errors."""

import random
from dataclasses import replace

from termprobe.board.board import Board
from termprobe.diagnosis.error_rates import USUAL_RATES
from termprobe.diagnosis.shown import sight_of, wanted_of
from termprobe.journal.records import (
    AS_EXPECTED,
    DIFFERS,
    DUMP,
    Answer,
    Answered,
    Sent,
    StepBegun,
)
from termprobe.observer.simulated_screen import SimulatedScreenObserver
from termprobe.plan.model import Look


class Reader:
    """Reads whole screens and their dots, as that of a simulated board is read."""

    strength = DUMP

    def answer(self, step, board, bells):
        """Return the Answer to a look at `board`, whose bell has rung so often for it."""
        picture = replace(board.screen(), bells=bells)
        return replace(SimulatedScreenObserver(lambda: picture).answer(step), strength=DUMP)


class Eyes:
    """Say yes or no. `errors` is the share of answers that are wrong; None takes what is usual."""

    def __init__(self, seed, errors=0.0):
        self._chance, self._errors = random.Random(seed), errors

    def answer(self, step, board, bells):
        wanted, codes = wanted_of(step.expected, step.asks_dots), board.drawn()
        sight = sight_of(codes, board.cursor, bells, wanted, board.misdrawn(codes))
        differs = bool(sight.picture)
        if self._chance.random() < self._share(sight, len(wanted.codes)):
            differs = not differs
        return Answer(DIFFERS if differs else AS_EXPECTED)

    def _share(self, sight, cells):
        if self._errors is not None:
            return self._errors
        return USUAL_RATES.miss(sight, cells) if sight.picture else USUAL_RATES.false_alarm


def looks_to_play(plan):
    """Return the looks of `plan` that can be played."""
    steps = [step for step in plan.steps if isinstance(step, Look) and not step.not_fitted]
    return [step for step in steps if step.expected is not None]


def played(board, looks, observer):
    """Return the records of a run in which `observer` answers these looks at `board`, in order."""
    records, before = [], 0
    for step in looks:
        records.append(StepBegun(step.id, step.hash))
        if not step.continues:
            before = board.bells
        for group in step.groups:
            records.append(Sent(step.id, group.data))
            board.receive(group.data)
        answer = observer.answer(step, board, board.bells - before)
        records.append(Answered(step.id, answer, step.hash))
    return records


def records_of(profile, plan, faults, observer, looks=None):
    """Return the records of a run on a board with `faults`, all looks answered by default."""
    chosen = looks_to_play(plan) if looks is None else looks
    return played(Board(profile, faults), chosen, observer)
