"""A builder who is not there: looks at a simulated board, says yes or no, or chooses pictures."""

import math
import time
from dataclasses import replace

from termprobe.board.board import Board
from termprobe.diagnosis.confirming import confirming_look
from termprobe.diagnosis.diagnose import all_accounts, case_of
from termprobe.diagnosis.error_rates import USUAL_RATES
from termprobe.diagnosis.narrowing import looked_at, region_to_ask
from termprobe.diagnosis.next_look import next_look
from termprobe.diagnosis.pictures import pictures
from termprobe.diagnosis.ranking import ranked_classes, suspect_of
from termprobe.diagnosis.regions import numbers_of
from termprobe.diagnosis.shown import sight_of, wanted_of
from termprobe.journal.asked_again import AskedAgain
from termprobe.journal.records import AS_EXPECTED, DIFFERS, Answer, Answered, Sent, StepBegun
from termprobe.terminal.screen import differences
from termprobe.verdict.judge import judge

from . import stage

ENOUGH = 0.95
YES_OR_NO, REGIONS = "yes or no", "yes or no, of regions too"
PICTURES, PICTURES_AND_MARKS = "pictures", "pictures and marks"
"""What a builder says of a look."""


def by_errors(share, chance):
    """Return what tells of each answer, by its number, whether it is wrong: a share of them is."""
    return lambda number: chance.random() < share


def one_lie(wrong):
    """Return the same for a builder of whose answers the one with this number is wrong."""
    return lambda number: number == wrong


class Person:
    """Looks at a board with the fault `name`, an empty name for a good one.

    `is_wrong(number)` tells of each answer whether it is wrong. A wrong answer to a look that
    differs passes it as often as it chooses another picture; one to a look that is right says that
    it differs. Where regions are told of, what is said of each is an answer of its own. With marks,
    the first cell that differs is told where none of the pictures is seen.
    `rates` are what is thought of the answers; `board` stands in for one with the fault.
    """

    def __init__(self, name, says, is_wrong, chance, rates=USUAL_RATES, board=None):
        self._name, self._says, self._rates = name, says, rates
        self._is_wrong, self._chance = is_wrong, chance
        self._board = board or Board(stage.PROFILE, [stage.faults()[name]] if name else [])
        self.records, self._bells_before = [], 0
        self.answers = 0
        self.asked, self.pictures_s, self.next_s = [], [], []
        self._case = self._found = self._healthy = self._verdict = self._accounts = None

    def look(self, step):
        """Have `step` sent, with what it goes on from, and answer it; return the word.

        Where it was answered before, it is asked once more.
        """
        if step.id in self.asked:
            self.records.append(AskedAgain(step.id))
        for part in self._chain(step):
            self._send(part)
        bells = self._board.bells - self._bells_before
        wanted, codes = wanted_of(step.expected, step.asks_dots), self._board.drawn()
        misdrawn = self._board.misdrawn(codes)
        sight = sight_of(codes, self._board.cursor, bells, wanted, misdrawn)
        answer = self._answer(step, sight)
        self.asked.append(step.id)
        self.records.append(Answered(step.id, answer, step.hash))
        return answer.word

    def look_at_all(self):
        """Look at every step in order."""
        for step in stage.looks().values():
            self.look(step)

    def _chain(self, step):
        chain, plan = [step], stage.plan()
        while chain[0].continues:
            chain.insert(0, plan.steps[plan.index[chain[0].id] - 1])
        return chain

    def _send(self, step):
        self.records.append(StepBegun(step.id, step.hash))
        if not step.continues:
            self._bells_before = self._board.bells
        for group in step.groups:
            self.records.append(Sent(step.id, group.data))
            self._board.receive(group.data)

    def _answer(self, step, sight):
        picture, is_wrong = sight.picture, self._errs()
        if self._says in (YES_OR_NO, REGIONS):
            differs = bool(picture) != is_wrong
            if differs and self._says == REGIONS:
                return Answer(DIFFERS, regions=tuple(self._of_regions(step, sight)))
            return Answer(DIFFERS if differs else AS_EXPECTED)
        passes = is_wrong and self._chance.random() < 0.5
        if (not picture and not is_wrong) or (picture and passes):
            return Answer(AS_EXPECTED)
        return self._of_pictures(step, picture, is_wrong)

    def _errs(self):
        """Return whether the next answer is wrong."""
        self.answers += 1
        return self._is_wrong(self.answers - 1)

    def _of_regions(self, step, sight):
        """Yield (region, whether it is said to be wrong) of each that is asked about."""
        plan, known = stage.plan(), stage.dictionary()
        verdict = judge(plan, self.records)
        seen = looked_at(stage.PROFILE, plan, self.records, verdict, known, step)
        asked = region_to_ask(seen, step.id, known)
        numbers = numbers_of(plan.rows, plan.columns)
        while asked is not None:
            is_touched = bool(sight.where >> numbers[asked.words] & 1)
            says = is_touched != self._errs()
            yield asked.words, says
            asked = asked.after(says)

    def _of_pictures(self, step, picture, is_wrong):
        start_s = time.monotonic()
        predictions = self._predicted(step)
        self.pictures_s.append(time.monotonic() - start_s)
        if predictions is None:
            return Answer(DIFFERS)
        offered = predictions.offered
        chosen = picture if picture in offered else ""
        if is_wrong:
            chosen = self._chance.choice([one for one in ("", *offered) if one != chosen])
        if self._says == PICTURES_AND_MARKS and not chosen and not is_wrong:
            return self._marked(step, predictions)
        return _choice(predictions, chosen)

    def _marked(self, step, predictions):
        """Return the answer that none is seen, with the first cell that differs.

        What stands there is typed; where only cursor or bell differ, nothing is marked.
        """
        said = Answer(DIFFERS, offered=predictions.offered)
        expected, seen = step.expected.rows, self._board.screen().rows
        odd = differences(expected, seen)
        if not odd:
            return said
        row, column = odd[0].row, odd[0].column
        marked = expected[row][:column] + seen[row][column] + expected[row][column + 1 :]
        return replace(said, seen=(*expected[:row], marked, *expected[row + 1 :]))

    def _predicted(self, step):
        plan, verdict = stage.plan(), judge(stage.plan(), self.records)
        known = stage.dictionary()
        return pictures(stage.PROFILE, plan, self.records, verdict, known, step.id)

    def conclude(self):
        """Work out what all answers so far say."""
        plan = stage.plan()
        self._verdict = judge(plan, self.records)
        case = case_of(stage.PROFILE, plan, self.records, self._verdict)
        self._case = replace(case, rates=self._rates)
        self._healthy = self._case.of_nothing()
        self._accounts = all_accounts(self._case, self._healthy, stage.dictionary())
        self._found = ranked_classes(self._healthy, self._accounts)

    def classes(self):
        """Return how probable each class is that no look parts, by what such answers can tell."""
        shares = {}
        for of_class in self._found:
            for share, account in zip(of_class.shares, of_class.members, strict=True):
                key = self._key(account.cause.name)
                shares[key] = shares.get(key, 0.0) + share
        return shares

    def _key(self, name):
        performance = stage.dictionary().faults.get(name)
        if performance is None:
            return name
        if self._says in (YES_OR_NO, REGIONS):
            return tuple(bool(sight.picture) for sight in performance.alone)
        return performance

    def first_class(self):
        """Return what tells the class that leads."""
        shares = self.classes()
        return max(shares, key=shares.get)

    def leading(self):
        """Return how probable the leading class is said to be, and whether it is the true one."""
        shares, first = self.classes(), self.first_class()
        return shares[first], first == self._key(self._name or self._healthy.cause.name)

    def is_sure(self):
        """Return whether one class that no look parts has enough."""
        return self.leading()[0] >= ENOUGH

    def leads(self):
        """Return whether the class of the fault is the most probable one."""
        return self.leading()[1]

    def bits_left(self):
        """Return how many bits tell the class of the fault from those of all other faults."""
        shares = self.classes()
        of_faults = 1 - shares.get(self._healthy.cause.name, 0.0)
        return -math.log2(shares[self._key(self._name)] / of_faults)

    def is_named(self):
        """Return whether a report's first suspect has the fault."""
        suspect = suspect_of(self._found[0], self._healthy)
        return self._name in suspect.faults

    def confirming_look(self, is_fewest):
        """Return the id of the look that confirms the class best; None where it is in no doubt."""
        return confirming_look(
            self._case,
            self._healthy,
            self._accounts,
            self._open_looks(),
            stage.dictionary(),
            is_fewest,
        )

    def _open_looks(self):
        """Return the verdict of looks alone: nothing else is asked."""
        looks = set(stage.dictionary().looks)
        steps = tuple(step for step in self._verdict.steps if step.id in looks)
        return replace(self._verdict, steps=steps)

    @property
    def again(self):
        """How many looks were asked once more."""
        return len(self.asked) - len(set(self.asked))

    def next_look(self, is_fewest):
        """Return the id of the look that would tell most next; None where none tells anything."""
        start_s = time.monotonic()
        verdict = self._open_looks()
        found = next_look(self._case, self._found, verdict, stage.dictionary(), is_fewest)
        self.next_s.append(time.monotonic() - start_s)
        return found


def _choice(predictions, chosen):
    said = Answer(DIFFERS, chosen=chosen, offered=predictions.offered)
    if not chosen:
        return said
    screen = predictions.found[predictions.offered.index(chosen)].screen
    return replace(said, seen=screen.rows, cursor=screen.cursor, bells=screen.bells)
