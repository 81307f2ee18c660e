"""Looks in a national variant, and with half of the rows dark: diagnosis goes by the codes."""

from helpers.scripts import look, plan_of
from helpers.special import special
from termprobe.board.board import Board
from termprobe.board.faults.catalogue import fault
from termprobe.diagnosis.answers import evidence_of, question_of
from termprobe.diagnosis.foreseen import foreseen
from termprobe.diagnosis.playing import chains_of, looks_of, perform
from termprobe.diagnosis.shown import AS_WANTED, wanted_of
from termprobe.journal.records import DIFFERS, Answer, Answered, OptionSet, Sent, StepBegun
from termprobe.terminal.screen import UNKNOWN_CHARACTER
from termprobe.verdict.judge import judge

GERMAN = {"character-set": "german"}
HOME, TAGS = {"command": "home"}, {"pattern": "row-tags"}
PLAN = plan_of(
    [
        look("open", [{"text": "#[{~"}], settings=GERMAN),
        look("plain", [{"text": "#[{~"}]),
        look("all", [TAGS], rows="all"),
        look("half", [HOME, {"text": "X"}], rows="half", start="keep"),
        look("again", [HOME], rows="all", start="keep"),
        '{id: word, kind: typed-back, title: W, word: "[{", settings: {character-set: german}}',
    ],
    special(),
)
STUCK = "bank-0-data/stuck/0/0"


def test_what_a_look_wants_are_the_codes_that_are_sent():
    step = PLAN.step("open")
    assert step.expected.rows[0].startswith("#Ääß ")
    assert wanted_of(step.expected).codes.startswith(b"#[{~ ")


def test_a_good_board_shows_what_is_wanted_in_either_way_of_playing():
    for way in perform(special(), chains_of(PLAN)):
        assert set(way) == {AS_WANTED}


def test_a_fault_of_a_bank_is_seen_where_that_bank_is_lit():
    chains = chains_of(PLAN)
    odd = perform(special(), chains, fault(special(), "bank-1-data/stuck/1/1"))
    shown = dict(zip(looks_of(chains), odd.in_order, strict=True))
    assert shown["half"] == AS_WANTED and shown["again"].cells and shown["all"].cells


def test_marks_and_words_are_told_by_their_codes():
    expected = PLAN.step("open").expected.rows
    seen = (f"{UNKNOWN_CHARACTER}Ö" + expected[0][2:], *expected[1:])
    records = [Answered("open", Answer(DIFFERS, seen=seen))]
    (answer,) = evidence_of(PLAN, records, judge(PLAN, records))
    assert answer.marks == {0: None, 1: 0x5C}
    assert question_of(PLAN.step("word")).first_cell == 0


def test_what_is_foreseen_with_a_known_fault_is_drawn_in_the_variant():
    step = PLAN.step("open")
    records = [OptionSet(*setting) for setting in step.settings]
    records += [StepBegun(step.id, step.hash), Sent(step.id, step.data)]
    found = foreseen(special(), PLAN, records, step, [STUCK])
    board = Board(special(), [STUCK])
    board.set_option("character-set", "german")
    board.receive(step.data)
    # bit 0 arrives as 0: 23 5B 7B 7E become 22 5A 7A 7E
    assert found.rows == board.screen().rows and found.rows[0].startswith('"Zzß ')
