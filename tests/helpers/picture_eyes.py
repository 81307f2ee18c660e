"""A builder who is not there, and chooses from pictures at a simulated board, with given errors."""

import time
from dataclasses import replace

from termprobe.board.board import Board
from termprobe.board.faults.catalogue import catalogue
from termprobe.diagnosis.diagnose import all_accounts, case_of
from termprobe.diagnosis.next_look import next_look
from termprobe.diagnosis.pictures import pictures
from termprobe.diagnosis.ranking import ranked_classes, suspect_of
from termprobe.diagnosis.shown import sight_of, wanted_of
from termprobe.journal.records import AS_EXPECTED, DIFFERS, Answer, Answered, Sent, StepBegun
from termprobe.verdict.judge import judge

ENOUGH = 0.95


class PictureEyes:
    """Looks at a board with the fault `name`; `errors` is the share of answers that are wrong."""

    def __init__(self, profile, plan, dictionary, name, errors, chance):
        self._profile, self._plan, self._dictionary = profile, plan, dictionary
        self._name, self._errors, self._chance = name, errors, chance
        self._board = Board(profile, [catalogue(profile)[name]])
        self._records, self._bells_before = [], 0
        self.asked, self.shares, self.waits_s = [], [], []
        self._case = self._found = self._healthy = self._verdict = None

    def look(self, step):
        """Have `step` sent, with what it goes on from, and answer it."""
        for part in self._chain(step):
            self._send(part)
        bells = self._board.bells - self._bells_before
        wanted, codes = wanted_of(step.expected, step.asks_dots), self._board.drawn()
        misdrawn = self._board.misdrawn(codes)
        sight = sight_of(codes, self._board.cursor, bells, wanted, misdrawn)
        answer = self._answer(step, sight.picture)
        self.asked.append(step.id)
        self._records.append(Answered(step.id, answer, step.hash))
        self._conclude()

    def _chain(self, step):
        chain = [step]
        while chain[0].continues:
            chain.insert(0, self._plan.steps[self._plan.index[chain[0].id] - 1])
        return chain

    def _send(self, step):
        self._records.append(StepBegun(step.id, step.hash))
        if not step.continues:
            self._bells_before = self._board.bells
        for group in step.groups:
            self._records.append(Sent(step.id, group.data))
            self._board.receive(group.data)

    def _answer(self, step, picture):
        is_wrong = self._chance.random() < self._errors
        passes = is_wrong and self._chance.random() < 0.5
        if (not picture and not is_wrong) or (picture and passes):
            return Answer(AS_EXPECTED)
        start_s = time.monotonic()
        predictions = self._predicted(step)
        self.waits_s.append(time.monotonic() - start_s)
        if predictions is None:
            return Answer(DIFFERS)
        self.shares.append(predictions.share)
        offered = predictions.offered
        right = picture if picture in offered else ""
        others = [one for one in ("", *offered) if one != right]
        return self._choice(predictions, self._chance.choice(others) if is_wrong else right)

    def _choice(self, predictions, chosen):
        said = Answer(DIFFERS, chosen=chosen, offered=predictions.offered)
        if not chosen:
            return said
        screen = predictions.found[predictions.offered.index(chosen)].screen
        return Answer(
            DIFFERS,
            screen.rows,
            screen.cursor,
            screen.bells,
            chosen=chosen,
            offered=predictions.offered,
        )

    def _predicted(self, step):
        verdict = judge(self._plan, self._records)
        return pictures(
            self._profile, self._plan, self._records, verdict, self._dictionary, step.id
        )

    def _conclude(self):
        self._verdict = judge(self._plan, self._records)
        self._case = case_of(self._profile, self._plan, self._records, self._verdict)
        self._healthy = self._case.of_nothing()
        accounts = all_accounts(self._case, self._healthy, self._dictionary)
        self._found = ranked_classes(self._healthy, accounts)

    def _classes(self):
        """Return how probable each class is that no look parts."""
        shares = {}
        for of_class in self._found:
            for share, account in zip(of_class.shares, of_class.members, strict=True):
                name = account.cause.name
                key = self._dictionary.faults.get(name, name)
                shares[key] = shares.get(key, 0.0) + share
        return shares

    def is_sure(self):
        """Return whether one class that no look parts has enough."""
        return max(self._classes().values()) >= ENOUGH

    def leads(self):
        """Return whether the class of the fault is the most probable one."""
        shares = self._classes()
        return max(shares, key=shares.get) == self._dictionary.faults[self._name]

    def is_named(self):
        """Return whether a report's first suspect has the fault."""
        suspect = suspect_of(self._found[0], self._healthy)
        return self._name in suspect.faults

    def next_look(self, is_fewest):
        """Return the id of the look that would tell most next; None where none tells anything."""
        looks = set(self._dictionary.looks)
        steps = tuple(step for step in self._verdict.steps if step.id in looks)
        verdict = replace(self._verdict, steps=steps)
        return next_look(self._case, self._found, verdict, self._dictionary, is_fewest)
