"""Wrong dots from the look that shows them to the cause: by who sees them, and by no dump."""

import functools

import pytest

from helpers.few_faults import play_those
from helpers.scripts import SINGLE, look, plan_of
from termprobe.board.board import Board
from termprobe.board.faults import dots
from termprobe.board.faults.catalogue import catalogue
from termprobe.board.faults.catalogue import fault as fault_named
from termprobe.diagnosis import coverage, showing
from termprobe.diagnosis import diagnose as diagnosing
from termprobe.diagnosis import dictionary as dictionaries
from termprobe.diagnosis import pictures as picturing
from termprobe.diagnosis.answers import evidence_of
from termprobe.diagnosis.coverage import coverage_of
from termprobe.diagnosis.diagnose import diagnose
from termprobe.diagnosis.dictionary import fault_dictionary
from termprobe.diagnosis.dictionary_form import dictionary_bytes, dictionary_of
from termprobe.diagnosis.foreseen import foreseen
from termprobe.diagnosis.pictures import pictures
from termprobe.diagnosis.replay import replay
from termprobe.journal.records import (
    AS_EXPECTED,
    DIFFERS,
    DUMP,
    EYES,
    Answer,
    Answered,
    Sent,
    StepBegun,
)
from termprobe.observer.base import compared
from termprobe.observer.choosing import answer_of_choice
from termprobe.observer.simulated_screen import SimulatedScreenObserver
from termprobe.runner.known_fault import with_faults
from termprobe.verdict.judge import judge
from termprobe.verdict.model import FAIL, PASS

PLAN = plan_of(
    [
        look("chart", [{"pattern": "code-chart"}], enlarged="RN"),
        look("tags", [{"pattern": "column-tags"}]),
        look("word", [{"text": "HELLO"}]),
        look("words", [{"text": "ABDHPX! 0248"}], enlarged="AX"),
    ]
)
CHART, TAGS, WORD, WORDS = PLAN.steps
COLUMN, SWAPPED = "dot-column/missing/2", "row-scan/swapped/0-2"
DOT = "glyph-cell/stuck/65-3-2/1"


EVERY = catalogue(SINGLE)
FEW = {name: one for name, one in EVERY.items() if one.block in (*dots.BLOCKS, "bank-0-data")}
"""The faults of which the dictionary is made here; more would take longer, and show no more."""


@pytest.fixture(autouse=True)
def few(monkeypatch):
    modules = (coverage, diagnosing, dictionaries, picturing, showing)
    play_those(monkeypatch, lambda profile: FEW, *modules)


@functools.cache
def known():
    return fault_dictionary(SINGLE, PLAN, is_beside=True)


def sight(name, step):
    return known().faults[name].alone[known().looks.index(step.id)]


def run_of(fault, answer_of):
    """Return the records of a run on a board with `fault`; answer_of(step, board) answers."""
    board, records = Board(SINGLE, [fault_named(SINGLE, fault)]), []
    for step in PLAN.steps:
        board.receive(step.data)
        records += sent_for(step)
        records.append(Answered(step.id, answer_of(step, board), step.hash))
    return records


def sent_for(step):
    return [StepBegun(step.id, step.hash), *[Sent(step.id, one.data) for one in step.groups]]


def eye(step, board):
    answer = SimulatedScreenObserver(board.screen).answer(step)
    return Answer(
        answer.word, answer.seen, answer.cursor, 0, misdrawn=answer.misdrawn, strength=DUMP
    )


def dump(step, board):
    """Say what a dump tells: characters and cursor, and not a word of dots."""
    seen = board.screen()
    answer = compared(step.expected, seen.rows, seen.cursor)
    return Answer(answer.word, answer.seen, answer.cursor, strength=DUMP)


def word_alone(step, board):
    return Answer(eye(step, board).word, strength=EYES)


def verdicts(records):
    return {step.id: step.verdict for step in judge(PLAN, records).steps}


def concluded(records):
    return diagnose(SINGLE, PLAN, records, judge(PLAN, records), known())


def test_a_look_that_asks_shows_few_characters_and_another_a_quarter_of_the_screen():
    assert sight(COLUMN, CHART).is_of_dots_alone and sight(COLUMN, TAGS).dots > 24 * 20
    assert not sight(COLUMN, WORD).picture and sight(COLUMN, WORDS).dots == 11
    assert sight("dot-column/stuck/2/1", WORD).dots == 24 * 80, "its blanks are lit as well"


def test_no_two_faults_look_alike_that_draw_otherwise():
    drawn = [sight(name, CHART).picture for name in known().faults if name.startswith("dot-col")]
    assert len(set(drawn)) == len(drawn)


@pytest.mark.parametrize(
    "name", [COLUMN, "blanking/dead", "cursor/dead", "shift-register/stuck/1/1"]
)
def test_what_the_dictionary_knows_is_what_a_played_board_shows(name):
    records = run_of(name, eye)
    looks = evidence_of(PLAN, records, judge(PLAN, records))
    shown = replay(SINGLE, PLAN, records, looks, fault_named(SINGLE, name))
    for one, seen, way in zip(looks, shown, known().faults[name].in_order, strict=True):
        assert seen.against(one.wanted) == way
        assert one.sight == way


def test_the_dictionary_is_kept_with_its_dots():
    again = dictionary_of(dictionary_bytes(known()))
    assert again == known() and again.single_dots[65].surely == 0b1001


def test_coverage_counts_dots_apart_and_each_single_dot_by_the_looks_that_ask():
    found = coverage_of(known(), PLAN, SINGLE)
    assert (found.dots.faults, found.dots.detected, found.dots.undetectable) == (72, 71, 1)
    assert found.shows_all_dots and found.by_block["dot-column"].share == 1
    why = found.undetectable["shift-register/stuck/5/0"]
    assert why == "no character that can be stored is drawn otherwise by it"


@pytest.mark.parametrize("name", [COLUMN, SWAPPED, DOT, "cursor/dead", "dots/half"])
def test_who_sees_dots_fails_the_board_and_the_fault_is_named(name):
    records = run_of(name, eye)
    assert verdicts(records)["chart"] == FAIL
    found = concluded(records)
    assert found.is_explained and found.suspects[0].faults == (name,)
    assert found.suspects[0].probability > 0.99
    assert found.probes


@pytest.mark.parametrize("name", [COLUMN, SWAPPED, DOT, "cursor/dead", "blanking/dead"])
def test_a_dump_passes_such_a_board_and_says_that_it_saw_no_dots(name):
    records = run_of(name, dump)
    judged = judge(PLAN, records)
    assert {step.verdict for step in judged.steps} == {PASS}
    assert "dots" in judged.steps[0].not_seen and "dots" not in judged.steps[2].not_seen


def test_a_dump_that_differs_speaks_neither_for_nor_against_wrong_dots():
    records = run_of("bank-0-data/stuck/0/1", dump)
    found = concluded(records)
    named = [name for suspect in found.suspects for name in suspect.faults]
    assert named[0] == "bank-0-data/stuck/0/1"
    assert not any(name.startswith(("dot-column", "row-scan")) for name in named)


def test_words_of_eyes_alone_leave_wrong_dots_among_what_fits_them_all():
    found = concluded(run_of(COLUMN, word_alone))
    fitting = [suspect for suspect in found.suspects if not suspect.contradicts]
    assert COLUMN in fitting[0].faults and SWAPPED in fitting[0].faults


def test_a_single_dot_is_a_cause_where_only_looks_that_ask_for_dots_differ():
    def answer_of(step, _):
        return Answer(DIFFERS if step.asks_dots else AS_EXPECTED, strength=EYES)

    found = concluded(run_of(DOT, answer_of))
    titles = " ".join(suspect.title for suspect in found.suspects)
    assert "one dot in the drawing of one character is wrong" in titles


def test_a_picture_of_wrong_dots_is_offered_and_names_the_fault_where_it_is_chosen():
    records = run_of(COLUMN, word_alone)[:-3]
    predictions = pictures(SINGLE, PLAN, records, judge(PLAN, records), known(), "words")
    sentences = [one.sentence for one in predictions.found]
    number = sentences.index("the fifth column of dots is missing")
    chosen = predictions.found[number]
    assert chosen.screen.rows == WORDS.expected.rows
    assert "A" in dict(chosen.screen.misdrawn)
    answer = answer_of_choice(predictions, number + 1)
    assert answer.misdrawn == chosen.screen.misdrawn
    found = concluded([*records, *sent_for(WORDS), Answered("words", answer, WORDS.hash)])
    alike = {"dot-column/missing/4", "shift-register/stuck/4/0"}
    assert set(found.suspects[0].faults) == alike, "the gap behind the last column is dark"


def test_a_board_with_a_known_fault_is_expected_with_its_dots():
    found = foreseen(SINGLE, PLAN, sent_for(CHART), CHART, [COLUMN])
    assert found.rows == CHART.expected.rows
    assert dict(found.misdrawn)["F"].startswith("##.##./#...../#...../##.#../#")
    for name, verdict in ((COLUMN, PASS), (SWAPPED, FAIL)):
        answer = eye(with_faults(CHART, found), board_after(name, CHART))
        answered = Answered("chart", answer, CHART.hash, against=found)
        assert verdicts([*sent_for(CHART), answered])["chart"] == verdict


def board_after(name, step):
    board = Board(SINGLE, [name])
    board.receive(step.data)
    return board
