"""Builders who answer looks by a simulated board until a fault is named; how much that takes."""

import random
import tempfile
from pathlib import Path
from typing import NamedTuple

from helpers.bench import HEADER
from termprobe.board.board import Board
from termprobe.board.link import SimLink
from termprobe.clock import CrankedClock
from termprobe.diagnosis.foreseen import foreseen
from termprobe.diagnosis.naming import name_cause
from termprobe.journal.file import Journal
from termprobe.journal.known_fault import ToRepair
from termprobe.journal.records import AS_EXPECTED, DIFFERS, DUMP, EYES, Answer, Answered
from termprobe.observer.base import compared
from termprobe.observer.switch_hands import HandsObserver
from termprobe.plan.choose import choose
from termprobe.plan.model import Look
from termprobe.runner.known_fault import REPAIR, NamedFault, Prospect, answers_to, ask_on
from termprobe.runner.run import Run
from termprobe.runner.walk import carry_out


class Foreseeing:
    """The Foresight of a plan on boards of a profile, by their fault dictionary."""

    def __init__(self, profile, plan, dictionary):
        self._profile, self._plan, self._dictionary = profile, plan, dictionary

    def prospect(self, records, verdict):
        found = name_cause(self._profile, self._plan, records, verdict, self._dictionary)
        if found.cause is None:
            return Prospect(next=found.next, answers=answers_to(found.next, verdict))
        cause = found.cause
        told = NamedFault(cause.fault, cause.alike, cause.title, cause.explains, cause.hidden)
        return Prospect(told)

    def shown(self, records, step, faults):
        return foreseen(self._profile, self._plan, records, step, faults)


class Screens:
    """Looks at a simulated board. `tells(expected, answer)` is what of it is told."""

    name = "scripted builder"

    def __init__(self, board, tells):
        self._board, self._tells, self._bells = board, tells, 0
        self.strength = DUMP if tells is read_out else EYES

    def begin(self):
        self._bells = self._board.bells

    def can_answer(self, step):
        return isinstance(step, Look)

    def answer(self, step):
        seen = self._board.screen()
        bells = self._board.bells - self._bells
        return self._tells(step.expected, compared(step.expected, seen.rows, seen.cursor, bells))


def read_out(expected, answer):
    """Tell all, as a dump does."""
    return answer


def picture(expected, answer):
    """Tell all that differs, as eyes do that find it among pictures."""
    if answer.word == AS_EXPECTED:
        return Answer(AS_EXPECTED)
    return Answer(DIFFERS, seen=answer.seen)


def yes_or_no(expected, answer):
    """Tell no more than whether it is as expected."""
    return Answer(answer.word)


class InTime(NamedTuple):
    """What it took."""

    answers: int
    since_first: int
    """From the first that differed on."""
    failed: int
    named: tuple[str, ...]
    """The faults that were named; none where none was."""


def looks_alone(plan):
    """Return the plan of the looks of `plan`."""
    looks = [step.id for step in plan.steps if isinstance(step, Look) and not step.not_fitted]
    return choose(plan, looks)


def until_named(profile, plan, fault, tells, foresight=None):
    """Return the InTime of a run on a board with `fault`; it goes to its end without foresight."""
    clock, board = CrankedClock(), Board(profile, [fault])
    with tempfile.TemporaryDirectory() as folder:
        journal = Journal.create(Path(folder) / "a.run.jsonl", HEADER, clock)
        normal = {str(option.name): str(option.normal) for option in profile.options}
        hands = HandsObserver(board.set_option, list(normal))
        observers = [Screens(board, tells), hands]
        link = SimLink(board, clock)
        run = Run(plan, link, journal, clock, observers, positions=normal, foresight=foresight)
        carry_out(run, ask_on if foresight is None else lambda named: REPAIR)
        records = journal.records
        journal.close()
    looks = {step.id for step in plan.steps}
    words = [one.answer.word for one in records if isinstance(one, Answered) and one.step in looks]
    named = [(one.fault, *one.alike) for one in records if isinstance(one, ToRepair)]
    first = words.index(DIFFERS) if DIFFERS in words else len(words)
    names = named[0] if named else ()
    return InTime(len(words), len(words) - first, words.count(DIFFERS), names)


def sampled(dictionary, of_each, seed=9):
    """Return names of faults that looks show, so many of each block and kind."""
    kinds = {}
    for name in sorted(dictionary.faults):
        if any(sight.picture for sight in dictionary.faults[name].in_order):
            kinds.setdefault(tuple(name.split("/")[:2]), []).append(name)
    chance = random.Random(seed)
    chosen = [chance.sample(names, min(of_each, len(names))) for names in kinds.values()]
    return [name for names in chosen for name in names]
