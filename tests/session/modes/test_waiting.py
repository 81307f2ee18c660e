"""The worker is waited for."""

import dataclasses

import pytest

from helpers.bench_plan import full_plan
from helpers.bench_state import after, after_event, asked_by, course, judged, state
from termprobe.journal.records import AS_EXPECTED, DIFFERS, Answer, Answered
from termprobe.link.base import Received
from termprobe.plan.model import TypedBack
from termprobe.runner.answer_keys import are_proven
from termprobe.runner.known_fault import Prospect
from termprobe.session.messages import Announce, PressHeard, Send, Shown
from termprobe.session.react import hearing

MADE = state(mode="waiting", is_known=True)


def test_verdicts_without_an_answer_lead_nowhere_once_they_are_known():
    assert hearing.hear(MADE, judged((), "more"), 1.0)[1] == ()
    first = dataclasses.replace(MADE, is_known=False)
    assert hearing.hear(first, judged((), "more"), 1.0)[1] == (Send("more", 1.0),)


def test_a_wrong_reply_is_held():
    """In the mode of its kind: a reply, or here a look as any other step would be."""
    made = after_event(MADE, judged((), "more", "hello", is_held=True), 1.0)
    assert (made.mode, made.step_id, made.next_id) == ("look", "hello", "more")


def test_answer_keys_that_are_proven_are_announced_once():
    typed = [Answered("word", Answer(AS_EXPECTED, data=b"any\r"), "hash of word")]
    made, requests = hearing.hear(MADE, judged(typed, "bell", "word"), 1.0)
    assert are_proven(made.course) and not are_proven(MADE.course)
    assert (made.mode, made.board_keys, requests) == ("announced", "proven", (Announce(),))
    again = dataclasses.replace(MADE, board_keys="off")
    assert after_event(again, judged(typed, "bell", "word"), 1.0).mode == "waiting"
    assert after_event(MADE, judged(typed, None, "word"), 1.0).mode == "ended"


def typed_right(word):
    """Return the state once `word` was typed on the board and came back right."""
    steps = [
        dataclasses.replace(step, word=word) if isinstance(step, TypedBack) else step
        for step in full_plan().steps
    ]
    plan = dataclasses.replace(full_plan(), steps=tuple(steps))
    answer = Answer(AS_EXPECTED, data=word.encode("ascii"))
    typed = Answered("word", answer, "hash of word")
    return dataclasses.replace(MADE, course=course([typed], plan))


@pytest.mark.parametrize(
    "word, is_proven", [("may\r", False), ("no\r", False), ("any\r", True), ("NY\r", True)]
)
def test_both_answer_keys_must_be_proven(word, is_proven):
    assert are_proven(typed_right(word).course) is is_proven


def test_a_word_that_came_back_wrong_proves_no_key():
    wrong = [Answered("word", Answer(AS_EXPECTED, data=b"any"), "hash of word")]
    assert not are_proven(course(wrong))


def test_a_screen_of_another_step_is_not_taken_for_that_of_the_step_in_hand():
    sending = dataclasses.replace(state("hello"), mode="waiting", is_known=True)
    assert after_event(sending, Shown("corners", 1.0), 1.0) == dataclasses.replace(
        sending, now_s=1.0
    )


def test_keys_wait_and_presses_are_kept_where_one_is_made_ready():
    assert after(MADE, "y").notice and asked_by(MADE, "y") == ()
    assert after_event(MADE, PressHeard((Received(0.1, b"q"),)), 1.0).early == ()


def test_a_key_that_came_before_the_step_is_said_to_be_too_soon_and_any_other_notice_stays():
    sending = dataclasses.replace(state("hello"), mode="waiting", is_known=True)
    told = after(sending, "y")
    assert told.notice == "sending: answer when all is there"
    there = after_event(told, Shown("hello", 1.0), 1.0)
    assert "too soon" in there.notice and "press again" in there.notice
    noted = told.say("noted")
    assert after_event(noted, Shown("hello", 1.0), 1.0).notice == "noted"


def test_a_look_on_which_the_cause_hangs_is_sent_once_more_and_that_is_said():
    told = [Answered("hello", Answer(DIFFERS), "hash of hello")]
    hangs = dataclasses.replace(MADE, prospect=Prospect(next="hello", answers=1))
    made, requests = hearing.hear(hangs, judged(told, "more", "hello"), 1.0)
    assert made.step_id == "hello" and "hangs on this one answer" in made.notice
    assert requests == (Send("hello", 1.0, is_again=True),)
    stale = dataclasses.replace(MADE, prospect=Prospect(next="hello", answers=0))
    assert hearing.hear(stale, judged(told, "more", "hello"), 1.0)[1] == (Send("more", 1.0),)
