"""How causes account for a run: by the dictionary, by replay, by presses."""

import functools

import pytest

from helpers.scripts import SINGLE, acceptance, look, plan_of
from helpers.virtual_builders import Eyes, Reader, records_of
from termprobe.board.faults.catalogue import catalogue, fault
from termprobe.diagnosis.accounts import score, typed_off, typed_on
from termprobe.diagnosis.answers import TypedAnswer
from termprobe.diagnosis.causes import cause_of
from termprobe.diagnosis.diagnose import case_of
from termprobe.diagnosis.dictionary import fault_dictionary
from termprobe.diagnosis.key_table import table_of
from termprobe.diagnosis.replay import Replayed
from termprobe.journal.records import DIFFERS, Answer, Answered, Arrived, Heard
from termprobe.link.base import Received
from termprobe.verdict.judge import judge

PLAN = plan_of(
    [
        look("stars", [{"pattern": "solid", "with": "*"}]),
        look("word", [{"text": "HELLO"}]),
        '{id: typed, kind: typed-back, title: T, question: Q, word: "#.4FY"}',
    ]
)


@functools.cache
def known_faults():
    return fault_dictionary(SINGLE, PLAN)


FAULTS = catalogue(SINGLE)
NAME = "bank-0-data/stuck/0/1"


def case(records):
    return case_of(SINGLE, PLAN, records, judge(PLAN, records))


def by_name(accounts):
    return {one.cause.name: one for one in accounts}


@pytest.mark.parametrize("observer", [Eyes(1), Reader()])
def test_the_true_fault_predicts_all_either_way(observer):
    run = case(records_of(SINGLE, PLAN, [NAME], observer))
    by_looks = by_name(run.by_dictionary(known_faults(), FAULTS.values()))[NAME]
    again = run.by_replay(cause_of(FAULTS[NAME]), FAULTS[NAME])
    for account in (by_looks, again):
        assert all(fit.is_as_predicted for fit in account.fits.values())
        assert score(account, run.of_nothing()) > 3


def test_faults_that_no_look_shows_are_left_out():
    run = case(records_of(SINGLE, PLAN, [NAME], Reader()))
    names = by_name(run.by_dictionary(known_faults(), FAULTS.values()))
    assert "ram-address/swapped/0-1" not in names and "keyboard-code/stuck/1/0" not in names


def test_what_depends_on_how_the_sending_pauses_counts_by_its_best():
    wrong = fault(SINGLE, "baud/ratio/2")
    run = case(records_of(SINGLE, PLAN, [], Reader()))
    assert set(run.by_replay(cause_of(wrong), wrong).fits) == {"stars", "word"}


def test_a_word_typed_back_is_read_off_the_screen_or_sent_by_other_keys():
    asked = TypedAnswer("typed", False, b"#.4FY\r", b"", 3)
    assert typed_off(Replayed(b"   #.4FQ  ", (0, 0), 0, b""), asked) == b"#.4FQ\r"
    table = table_of(SINGLE)
    stuck = {one.name: one for one in table.hypotheses}["keyboard-code/stuck/1/1"]
    assert typed_on(table, table.healthy, b"AB\r") == b"AB\r"
    assert typed_on(table, stuck, b"AB\r") == b"CB\x0f"


def test_a_wrong_word_speaks_for_what_the_keyboard_would_send():
    name = "keyboard-code/stuck/3/1"
    table = table_of(SINGLE)
    stuck = {one.name: one for one in table.hypotheses}[name]
    came = typed_on(table, stuck, b"#.4FY\r")
    records = [Arrived(None, b"x"), Answered("typed", Answer(DIFFERS, data=came))]
    run = case(records)
    keys = by_name(run.by_presses())
    assert keys[name].fits["typed"].is_as_predicted
    assert not run.of_nothing().fits["typed"].is_as_predicted
    assert not keys["keyboard-code/stuck/1/1"].fits["typed"].is_as_predicted


def test_presses_are_accounted_for_by_causes_of_the_keyboard():
    plan = acceptance()
    heard = Heard(9600, 7, (Received(0.1, b"C"),))
    records = [
        Arrived(None, b"x"),
        Answered("press/a+shift", Answer(DIFFERS, data=b"C", heard=heard, strength=3)),
    ]
    run = case_of(SINGLE, plan, records, judge(plan, records))
    found = by_name(run.by_presses())["keyboard-code/stuck/1/1"]
    assert found.fits["press/a+shift"].is_as_predicted and score(found, run.of_nothing()) > 0


def test_of_a_keyboard_that_was_not_tried_no_cause_is_weighed():
    """Its many possible faults would make all else look right."""
    run = case(records_of(SINGLE, PLAN, [NAME], Eyes(1)))
    assert not list(run.by_presses())
    typed = Answered("typed", Answer(DIFFERS, data=b"#.4FY\r"), PLAN.step("typed").hash)
    assert list(case([*run.records, typed]).by_presses())
