"""What the session begins with."""

import pytest

from helpers.bench_plan import CAUTION, PROFILE, full_plan
from helpers.bench_state import LINE
from termprobe.journal.card import FilledFromCard
from termprobe.journal.records import (
    AS_EXPECTED,
    Answer,
    Answered,
    BoardUnderTest,
    CautionRead,
    OptionSet,
    Sent,
    StepBegun,
)
from termprobe.session.opening import first_state, resumed


def test_it_is_known_whether_the_run_was_begun_on_a_card():
    begun = [FilledFromCard("2026-07-04"), answer("hello")]
    for records, is_from_card in ((begun, True), (begun[1:], False)):
        board = BoardUnderTest("1")
        made = first_state(full_plan(), PROFILE, LINE, board, "sim:", records)
        assert made.is_from_card is is_from_card


def answer(step_id, at_s=0.0):
    return Answered(step_id, Answer(AS_EXPECTED), t=at_s)


def test_the_first_state_knows_board_options_and_what_is_to_be_said():
    option = OptionSet("duplex", "half")
    made = first_state(
        full_plan(),
        PROFILE,
        LINE,
        BoardUnderTest("0007", "B"),
        "sim:",
        [option, answer("hello"), answer("gone")],
        path="runs/0007.run.jsonl",
        positions={"duplex": "full", "line": "on-line"},
    )
    assert (made.board, made.mode) == ("board 0007 rev. B", "beginning")
    assert made.course.trail == ("hello",)
    assert made.course.positions == {"duplex": "half", "line": "on-line"}
    assert made.opening == (
        "9 steps in 4 stages.",
        "Run file: runs/0007.run.jsonl",
        "The run goes on: 1 of 9 steps have an answer already.",
        "Profile or script was edited since.",
        "Answered, but no longer in the script: gone.",
    )
    assert not made.is_practice


@pytest.mark.parametrize("practice, words", [(True, "not told before the end"), (False, "A simul")])
def test_a_simulated_board_is_said_to_be_one(practice, words):
    made = first_state(full_plan(), PROFILE, LINE, BoardUnderTest("1"), "sim:", practice=practice)
    assert made.is_practice and words in made.opening[-1]


def test_many_changed_steps_are_counted():
    changed = [f"step-{number}" for number in range(14)]
    told = resumed(full_plan(), [answer("hello")], ["hello", *changed])
    assert told[2].endswith("they are asked again: Look at hello.")
    assert told[3].endswith("step-10, step-11 and 2 more.")


def test_the_pace_of_the_sittings_before_is_known():
    records = [StepBegun("hello", t=0.0), Sent("hello", b"x", t=6.0), answer("hello", 9.0)]
    made = first_state(full_plan(), PROFILE, LINE, BoardUnderTest("1"), "sim:", records)
    assert made.looks_s == (3.0,)


def test_a_caution_holds_for_the_sitting_in_which_it_was_read():
    records = [CautionRead("supply-5v", CAUTION), answer("supply-5v")]
    made = first_state(full_plan(), PROFILE, LINE, BoardUnderTest("1"), "sim:", records)
    assert made.course.acknowledged == frozenset()
