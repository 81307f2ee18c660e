"""The board must be switched off."""

import dataclasses

import pytest

from helpers.bench_plan import full_plan, plan, step
from helpers.bench_state import after, after_event, asked_by, console, judged, state
from termprobe.journal.records import Answer, Answered
from termprobe.session.messages import Quit, Regained, Send
from termprobe.session.react import hearing

OFF = Answered("supply-5v", Answer(value=5.5))
BAD = judged([OFF], None, "supply-5v")
MADE = after_event(state("supply-5v", "waiting", is_known=True), BAD)
READ = frozenset({full_plan().step("supply-5v").caution})


def test_a_reading_out_of_limits_brings_a_screen_of_its_own():
    shown = console(MADE, 80, 24)
    assert MADE.mode == "switch-off" and MADE.step_id == "supply-5v"
    assert "SWITCH OFF NOW" in shown and "5.5 V, outside the limits, 5 V \u00b1 5 %" in shown
    assert "the regulator is too hot to touch" in shown
    assert "m measure again" in shown and "q stop" in shown


def test_m_measures_again_and_q_stops():
    course = dataclasses.replace(MADE.course, acknowledged=READ)
    assert asked_by(dataclasses.replace(MADE, course=course), "m") == (Send("supply-5v", 1.0),)
    assert asked_by(MADE, "q") == (Quit(),)


def test_a_reading_within_limits_lifts_it():
    right = Answered("supply-5v", Answer(value=5.0))
    again = dataclasses.replace(MADE, mode="waiting")
    made, requests = hearing.hear(again, judged([OFF, right], "hello", "supply-5v"), 1.0)
    assert requests == (Send("hello", 1.0),) and made.step_id == "hello"


@pytest.mark.parametrize("keys", ["w", "j", "b"])
def test_from_the_step_itself_nothing_leads_to_a_byte_on_the_line(keys):
    measuring = dataclasses.replace(MADE, mode="measure", notice="")
    made = after(measuring, keys)
    if keys == "j":
        made = after(made, "end", "enter")
    assert made.mode in ("switch-off", "measure")
    assert not any(isinstance(one, Send) for one in asked_by(measuring, keys))


def test_a_line_that_comes_back_does_not_send_either():
    assert hearing.hear(MADE, Regained("back"), 1.0)[1] == ()


def test_a_run_that_is_gone_on_with_begins_there():
    begun = after_event(state(None, "beginning", is_known=False), judged([OFF], None))
    assert after(begun, "enter").mode == "switch-off"


def test_a_question_is_tried_again():
    rule = step("lamp", "end", "ask", title="Is the lamp lit?", stop_if="it smokes")
    made = plan(rule)
    bad = judged([Answered("lamp", Answer("differs"))], None, "lamp", plan=made)
    asked = after_event(state("lamp", "waiting", plan=made, is_known=True), bad)
    assert "try it again" in console(asked, 80, 24) and "it smokes" in console(asked, 80, 24)
