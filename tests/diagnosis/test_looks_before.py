"""What a look shows of what was sent before is told by the run, not by the dictionary."""

import functools

import pytest

from helpers.scripts import SINGLE, look, plan_of
from helpers.virtual_builders import Eyes, Reader, played
from termprobe.board.board import Board
from termprobe.board.faults.catalogue import catalogue
from termprobe.diagnosis.diagnose import all_accounts, case_of, diagnose
from termprobe.diagnosis.dictionary import fault_dictionary
from termprobe.diagnosis.looks_before import shows_before, sights_in_run, with_history
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


def test_yes_and_no_too_are_judged_by_what_the_run_showed():
    """By the dictionary, row tags sent to a screen of stars show other things than in this run."""
    full, letters, cleared = FULL_AND_CLEARED.steps
    board = Board(SINGLE, [catalogue(SINGLE)[EXCHANGED]])
    records = played(board, [cleared, letters, full, cleared], Eyes(1))
    case = case_of(SINGLE, FULL_AND_CLEARED, records, judge(FULL_AND_CLEARED, records))
    dictionary = fault_dictionary(SINGLE, FULL_AND_CLEARED)
    accounts = {one.cause.name: one for one in all_accounts(case, case.of_nothing(), dictionary)}
    assert all(fit.is_as_predicted for fit in accounts[EXCHANGED].fits.values())
    assert all(fit.told in (True, False) for fit in accounts[EXCHANGED].fits.values())


def test_what_a_look_that_is_asked_once_more_showed_last_is_expected_of_it(bench):
    case = case_of(SINGLE, PLAN, bench.records, bench.verdict())
    names = [FAULT, "bank-0-data/stuck/3/0", "baud/ratio/2"]
    sights = sights_in_run(case, names, known())
    assert sights.keys() == {"two", "three"} and all(
        list(one) == [FAULT] for one in sights.values()
    )
    assert sights["two"][FAULT].picture == bench.records[-1].answer.chosen


def test_causes_that_show_nothing_of_before_stay_as_they_are(bench):
    case = case_of(SINGLE, PLAN, bench.records, bench.verdict())
    accounts = case.by_dictionary(known(), catalogue(SINGLE).values())
    told = with_history(case, accounts, known())
    changed = [one.cause.name for one, anew in zip(accounts, told, strict=True) if one is not anew]
    assert FAULT in changed and all(shows_before(name, known()) for name in changed)
    assert not [name for name in changed if name.startswith("baud/ratio")]
    assert len(changed) < len(accounts) / 5


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
