"""A picture that comes of what was sent before is told by the run, not by the dictionary."""

import functools

import pytest

from helpers.scripts import SINGLE, look, plan_of
from helpers.virtual_builders import Reader, played
from termprobe.board.board import Board
from termprobe.board.faults.catalogue import catalogue
from termprobe.diagnosis.diagnose import all_accounts, case_of, diagnose
from termprobe.diagnosis.dictionary import fault_dictionary
from termprobe.diagnosis.looks_before import with_history
from termprobe.diagnosis.pictures import pictures
from termprobe.diagnosis.shown import picture_of
from termprobe.journal.records import DIFFERS, Answer, Answered, Sent, StepBegun
from termprobe.verdict.judge import judge

FAULT = "decoder/dead/clear"
PLAN = plan_of(
    [
        look("one", [{"text": "ABDHPX"}]),
        look("two", [{"text": "0248"}]),
        look("three", [{"text": "XYZ"}]),
    ]
)
EXCHANGED = "decoder/swapped/clear-erase-to-end-of-line"
FULL_AND_CLEARED = plan_of(
    [
        look("full", [{"pattern": "solid", "with": "_"}]),
        look("letters", [{"text": "ABDHPX"}]),
        look("cleared", [{"pattern": "solid", "with": "#"}, {"command": "clear"}, {"text": "AB"}]),
    ]
)
THE_OTHER_WAY_ROUND = PLAN.steps[::-1]


@functools.cache
def known():
    return fault_dictionary(SINGLE, PLAN)


class Bench:
    """A board with the fault; a builder chooses what it shows wherever that is offered."""

    def __init__(self):
        self.board, self.records = Board(SINGLE, [catalogue(SINGLE)[FAULT]]), []

    def send(self, step):
        self.records.append(StepBegun(step.id, step.hash))
        for group in step.groups:
            self.records.append(Sent(step.id, group.data))
            self.board.receive(group.data)

    def choose(self, step, offered):
        seen = self.board.screen()
        chosen = picture_of(self.board.drawn(), self.board.cursor, 0)
        answer = Answer(
            DIFFERS, seen.rows, seen.cursor, 0, chosen=chosen, offered=(*offered, chosen)
        )
        self.records.append(Answered(step.id, answer, step.hash))

    def verdict(self):
        return judge(PLAN, self.records)


@pytest.fixture(name="bench", scope="module")
def _bench():
    bench = Bench()
    for step in THE_OTHER_WAY_ROUND[:2]:
        bench.send(step)
        bench.choose(step, ("aa", "bb"))
    return bench


def test_the_dictionary_has_not_seen_what_this_run_shows(bench):
    number = known().looks.index("two")
    performance = known().faults[FAULT]
    chosen = bench.records[-1].answer.chosen
    assert chosen not in (performance.in_order[number].picture, performance.alone[number].picture)


def test_the_true_fault_leads_after_what_it_showed_was_chosen(bench):
    told = diagnose(SINGLE, PLAN, bench.records, bench.verdict(), known())
    assert FAULT in told.suspects[0].faults and told.is_explained


def test_what_it_will_show_next_is_offered(bench):
    step = THE_OTHER_WAY_ROUND[2]
    later = Bench()
    later.records = list(bench.records)
    for sent in THE_OTHER_WAY_ROUND[:2]:
        for group in sent.groups:
            later.board.receive(group.data)
    later.send(step)
    found = pictures(SINGLE, PLAN, later.records, later.verdict(), known(), step.id)
    assert picture_of(later.board.drawn(), later.board.cursor, 0) in found.offered


def test_where_no_picture_was_offered_all_stays_as_it_is(bench):
    records = [Answered("one", Answer(DIFFERS), PLAN.steps[0].hash)]
    case = case_of(SINGLE, PLAN, records, judge(PLAN, records))
    healthy = case.of_nothing()
    accounts = all_accounts(case, healthy, known())
    assert sorted(one.cause.name for one in with_history(case, healthy, accounts, known())) == (
        sorted(one.cause.name for one in accounts)
    )
    assert {id(one) for one in with_history(case, healthy, accounts, known())} == set(
        map(id, accounts)
    )


def test_a_wrong_clock_is_offered_nowhere():
    step = PLAN.steps[0]
    later = Bench()
    later.send(step)
    found = pictures(SINGLE, PLAN, later.records, later.verdict(), known(), step.id)
    number = known().looks.index(step.id)
    clocks = [one for name, one in known().faults.items() if name.startswith("baud/ratio")]
    assert clocks and not {one.alone[number].picture for one in clocks} & set(found.offered)


def test_causes_that_the_dictionary_speaks_against_are_played_where_its_word_is_not_sure():
    """A full screen is not cleared but one row is erased, and written again: it shows the same."""
    full, cleared = FULL_AND_CLEARED.steps[0], FULL_AND_CLEARED.steps[2]
    board = Board(SINGLE, [catalogue(SINGLE)[EXCHANGED]])
    records = played(board, [full, cleared], Reader())
    case = case_of(SINGLE, FULL_AND_CLEARED, records, judge(FULL_AND_CLEARED, records))
    dictionary = fault_dictionary(SINGLE, FULL_AND_CLEARED)
    accounts = {one.cause.name: one for one in all_accounts(case, case.of_nothing(), dictionary)}
    for cause in (FAULT, EXCHANGED):
        fits = accounts[cause].fits
        assert fits["full"].is_as_predicted and fits["cleared"].is_as_predicted, cause
