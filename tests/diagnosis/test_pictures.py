"""The wrong screens that a look may show, by the faults that lead."""

import functools

import pytest

from helpers.scripts import SINGLE, look, plan_of
from helpers.virtual_builders import Eyes, records_of
from termprobe.board.board import Board
from termprobe.board.faults.catalogue import catalogue
from termprobe.diagnosis.diagnose import diagnose
from termprobe.diagnosis.dictionary import fault_dictionary
from termprobe.diagnosis.pictures import MOST_PICTURES, pictures
from termprobe.diagnosis.shown import picture_of
from termprobe.journal.records import AS_EXPECTED, DIFFERS, Answer, Answered, Sent, StepBegun
from termprobe.terminal.screen import differences
from termprobe.verdict.judge import judge

FAULT = "bank-0-data/stuck/0/1"
PLAN = plan_of(
    [
        look("letters", [{"text": "ABDHPX"}]),
        look("digits", [{"text": "0248"}, {"command": "down"}, {"text": "!"}, {"command": "bell"}]),
        look("more", [{"text": "AB"}], start="keep"),
    ]
)
LETTERS, DIGITS, MORE = PLAN.steps


@functools.cache
def known():
    return fault_dictionary(SINGLE, PLAN)


def sent(step):
    return [StepBegun(step.id, step.hash), *[Sent(step.id, one.data) for one in step.groups]]


def offered(step, *before):
    """Return what is offered for `step`, sent behind the records `before`."""
    records = [*before, *sent(step)]
    return pictures(SINGLE, PLAN, records, judge(PLAN, records), known(), step.id)


def answered(step, answer):
    return [*sent(step), Answered(step.id, answer, step.hash)]


def choice(predictions, number):
    chosen = predictions.found[number]
    shown = chosen.screen
    return Answer(
        DIFFERS,
        shown.rows,
        shown.cursor,
        shown.bells,
        chosen=chosen.picture,
        offered=predictions.offered,
    )


def screen_with(fault, step):
    board = Board(SINGLE, [catalogue(SINGLE)[fault]])
    for group in step.groups:
        board.receive(group.data)
    return board


def test_eight_pictures_are_offered_each_once_the_most_probable_first():
    found = offered(LETTERS).found
    assert len(found) == MOST_PICTURES == len({one.picture for one in found})
    shares = [one.probability for one in found]
    assert shares == sorted(shares, reverse=True) and 0 < sum(shares) < 1
    assert offered(LETTERS).share == pytest.approx(sum(shares))


def test_each_picture_differs_and_says_how():
    for step in (LETTERS, DIGITS):
        for one in offered(step).found:
            cells = differences(step.expected.rows, one.screen.rows)
            is_elsewhere = one.screen.cursor != step.expected.cursor
            assert cells or is_elsewhere or one.screen.bells != step.expected.bells
            assert one.sentence


def test_the_answers_so_far_decide_what_leads():
    chances = records_of(SINGLE, PLAN, [FAULT], Eyes(1), [LETTERS])
    assert chances[-1].answer.word == DIFFERS
    board = screen_with(FAULT, DIGITS)
    true = picture_of(board.drawn(), board.cursor, board.bells)
    before = {one.picture: one.probability for one in offered(DIGITS).found}
    after = {one.picture: one.probability for one in offered(DIGITS, *chances).found}
    assert after[true] > before.get(true, 0.0)


def faults_with(picture, step):
    """Return the names of the faults with which `step` alone shows `picture`."""
    number = known().looks.index(step.id)
    shown = known().faults.items()
    return [name for name, both in shown if both.alone[number].picture == picture]


def test_what_a_picture_shows_is_what_a_board_with_the_fault_shows():
    for one in offered(LETTERS).found:
        for fault in faults_with(one.picture, LETTERS)[:2]:
            board = screen_with(fault, LETTERS)
            assert board.screen().rows == one.screen.rows
            assert (board.cursor, board.bells) == (one.screen.cursor, one.screen.bells)


@pytest.mark.parametrize("number", range(MOST_PICTURES))
def test_after_the_choice_the_true_class_leads_and_nothing_contradicts_it(number):
    before = answered(DIGITS, Answer(DIFFERS))
    found = offered(LETTERS, *before)
    records = [*before, *answered(LETTERS, choice(found, number))]
    told = diagnose(SINGLE, PLAN, records, judge(PLAN, records), known())
    named = set(told.suspects[0].faults)
    assert named & set(faults_with(found.offered[number], LETTERS))
    assert told.is_explained


def test_none_of_them_speaks_against_all_that_were_offered():
    found = offered(LETTERS)
    said = Answer(DIFFERS, offered=found.offered)
    again = offered(LETTERS)
    assert again.offered == found.offered
    records = answered(LETTERS, said)
    told = diagnose(SINGLE, PLAN, records, judge(PLAN, records), known())
    plain = answered(LETTERS, Answer(DIFFERS))
    before = diagnose(SINGLE, PLAN, plain, judge(PLAN, plain), known())
    assert told.suspects[0].faults != before.suspects[0].faults


def test_a_screen_that_goes_on_from_another_is_played_from_there():
    found = offered(MORE, *answered(DIGITS, Answer(AS_EXPECTED)))
    assert all("0" in "".join(one.screen.rows) for one in found.found[:3])


def test_nothing_is_offered_where_no_fault_would_show():
    other = plan_of([look("other", [{"text": "Z"}])])
    records = sent(other.steps[0])
    assert pictures(SINGLE, other, records, judge(other, records), known(), "other") is None
