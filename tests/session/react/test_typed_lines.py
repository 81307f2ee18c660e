"""Lines that are typed: taken, or refused with a reason."""

import dataclasses

import pytest

from helpers.bench_state import LINE, after, answers, course, state
from termprobe.journal.records import AS_EXPECTED, DISPUTED, SKIPPED
from termprobe.notation import parse, show
from termprobe.session.messages import Note, PressBoardKeys
from termprobe.session.react import typed_lines
from termprobe.session.react.waveform import Loop
from termprobe.session.stage_left import SkipStage


def accepted(purpose, text):
    return typed_lines.accept(typed_lines.open_line(state(), purpose, text))


def test_a_reason_must_be_given_for_disputing_and_skipping():
    for purpose in (typed_lines.DISPUTE, typed_lines.SKIP_REASON, typed_lines.NOTE):
        made, requests = accepted(purpose, " ")
        assert requests == () and "must be told" in made.notice and made.mode == "typing"


@pytest.mark.parametrize(
    "purpose, word", [(typed_lines.DISPUTE, DISPUTED), (typed_lines.SKIP_REASON, SKIPPED)]
)
def test_an_answer_that_is_typed_is_recorded_as_any_other(purpose, word):
    made, (record,) = accepted(purpose, " the manual says so ")
    assert (record.step_id, record.answer.word) == ("hello", word)
    assert (record.answer.note, record.answer.observer) == ("the manual says so", "builder")
    assert made.mode == "waiting" and len(made.looks_s) == 1


def test_a_note_and_what_is_typed_on_the_board_lead_back():
    made, requests = accepted(typed_lines.NOTE, "tube warm")
    assert (made.mode, made.notice, requests) == ("look", "noted", (Note("tube warm", "hello"),))
    made, requests = accepted(typed_lines.NOTE, "@u7.jpg it is hot")
    assert requests == (Note("it is hot", "hello", "u7.jpg"),) and made.notice != "noted"
    made, requests = accepted(typed_lines.BOARD_TEXT, "any")
    assert made.mode == "look" and requests == (PressBoardKeys("any\r"),)


def test_without_a_purpose_nothing_is_taken():
    made = state(mode="typing", beneath=("look",))
    assert typed_lines.accept(made) == (made, ()) and typed_lines.prompt(made) == ""


def test_the_notation_of_the_loop_is_read_back():
    assert parse(show(Loop(b'\x1b="\x80', LINE).data)) == b'\x1b="\x80'


def test_the_rest_of_a_stage_is_left_out_with_a_reason_and_all_gone_back_over_lies_behind():
    made = after(state("more", ahead=("solid", "corners")), "e")
    assert typed_lines.prompt(made) == "Why skip the rest of this stage (4 steps)"
    assert after(made, "enter").mode == "typing", "a reason must be given"
    made, requests = typed_lines.accept(dataclasses.replace(made, text=" no tube "))
    assert requests == (SkipStage("more", "no tube"),)
    assert made.mode == "waiting" and made.course.ahead == () and "j lists its steps" in made.notice


def test_where_nothing_of_a_stage_is_left_nothing_is_asked():
    done = answers(*((one, AS_EXPECTED) for one in ("hello", "more", "corners", "solid")))
    made = after(dataclasses.replace(state(), course=course(done)), "e")
    assert made.mode == "look" and made.notice == typed_lines.NOTHING_LEFT


@pytest.mark.parametrize(
    "step_id, mode",
    [("supply-5v", "caution"), ("half-duplex", "setting"), ("lamp", "ask"), ("word", "typed-back")],
)
def test_a_stage_is_left_from_whatever_it_waits_for(step_id, mode):
    made = after(state(step_id, mode=mode), "e")
    assert made.purpose is typed_lines.STAGE_REASON
