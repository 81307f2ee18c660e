"""Keys and events in every order that a quick hand and a slow line can bring about.

The session never hangs, and never jumps over a step.
"""

from helpers.bench_plan import PROFILE, full_plan
from helpers.bench_state import after_event, console, state
from helpers.bench_state import answers as judged

from termprobe.link.base import LineFormat
from termprobe.session.react import dispatch, hearing
from termprobe.session.opening import first_state
from termprobe.session.messages import Judged, Lost, RecordAnswer, Regained, Send, Shown
from termprobe.verdict.judge import judge


def answers(*names):
    return judge(
        full_plan(),
        [{"kind": "answer", "step": name, "word": "as-expected", "value": 5.0} for name in names],
    )


class Hand:
    """A session without worker and console: applies keys and events, keeps the requests."""

    def __init__(self, *done):
        self.done, self.requests, self.now_s = list(done), [], 100.0
        self.state = first_state(
            full_plan(),
            PROFILE,
            LineFormat(9600, 7, "even", 1),
            {"serial": "0007"},
            "sim:",
            positions={"duplex": "full"},
        )

    def press(self, *keys):
        for key in keys:
            self.now_s += 1
            self._take(dispatch.press(self.state, key, self.now_s))
        return self

    def hear(self, event):
        self._take(hearing.hear(self.state, event, self.now_s))
        return self

    def judged(self, next_id, *done, answered=None):
        self.done += done
        return self.hear(Judged(answers(*self.done), next_id, answered))

    def _take(self, after):
        self.state, requests = after
        self.requests += requests

    def at_hello(self):
        """Return the hand with the step hello on the screen."""
        self.judged("hello", "supply-5v").press("enter")
        return self.hear(Shown("hello", self.now_s))

    def is_at(self, mode, step_id):
        assert (self.state.mode, self.state.step_id) == (mode, step_id)
        return self


def test_a_key_that_comes_before_the_run_file_is_read_is_remembered():
    hand = Hand().press("enter").is_at("waiting", None)
    hand.judged("hello", "supply-5v").is_at("waiting", "hello")
    assert hand.requests == [Send("hello", 1.0)]


def test_a_line_that_is_lost_before_the_run_file_is_read_delays_the_opening_only():
    hand = (
        Hand()
        .hear(Lost("gone"))
        .judged("hello", "supply-5v")
        .hear(Regained("back"))
        .is_at("beginning", "hello")
    )
    hand.press("enter").is_at("waiting", "hello")


def test_help_and_the_question_whether_to_stop_do_not_hide_that_a_screen_has_come():
    for key, away in (("?", "x"), ("q", "n")):
        hand = Hand().judged("hello", "supply-5v").press("enter", key)
        hand.hear(Shown("hello", hand.now_s)).press(away).is_at("look", "hello")


def test_an_answer_that_is_written_down_while_help_is_open_leads_to_the_next_step():
    hand = Hand().at_hello().press("y", "q")
    hand.judged("corners", "hello", answered="hello").is_at("stopping", "corners")
    assert hand.requests[-1] == Send("corners", 1.0)
    hand.hear(Shown("corners", hand.now_s)).press("n").is_at("look", "corners")


def test_an_answer_that_is_written_down_while_the_line_is_gone_is_not_asked_for_again():
    hand = (
        Hand()
        .at_hello()
        .press("y")
        .hear(Lost("gone"))
        .judged("corners", "hello", answered="hello")
        .is_at("lost", "corners")
    )
    hand.hear(Regained("back")).is_at("waiting", "corners")
    assert [request.step_id for request in hand.requests if isinstance(request, RecordAnswer)] == [
        "hello"
    ]
    hand.hear(Shown("corners", hand.now_s)).is_at("look", "corners")


def test_a_note_that_is_being_typed_survives_a_lost_line():
    hand = (
        Hand()
        .at_hello()
        .press("+", "h", "o")
        .hear(Lost("gone"))
        .hear(Regained("back"))
        .is_at("typing", "hello")
    )
    assert hand.state.text == "ho" and hand.requests[-1] == Send("hello", 1.0)
    hand.hear(Shown("hello", hand.now_s)).press("t", "enter").is_at("look", "hello")


def test_a_second_answer_key_right_after_the_first_answers_nothing():
    hand = Hand().at_hello().press("y", "y", "y")
    assert len([request for request in hand.requests if isinstance(request, RecordAnswer)]) == 1


def test_back_goes_through_the_steps_answered_and_the_last_answer_counts():
    hand = Hand().at_hello().press("y").judged("corners", "hello", answered="hello")
    hand.hear(Shown("corners", hand.now_s)).press("b").is_at("waiting", "hello")
    hand.hear(Shown("hello", hand.now_s)).press("u").judged("corners", answered="hello").is_at(
        "waiting", "corners"
    )


def test_an_answer_that_is_not_good_says_what_it_has_done():
    before = state(mode="waiting", verdicts={verdict.id: verdict for verdict in judged().steps})
    told = {}
    for word in ("as-expected", "differs", "unsure"):
        made = after_event(before, Judged(judged(("hello", word)), "more", "hello"), 1.0)
        told[word] = made.notice
    assert told == {
        "as-expected": "",
        "differs": "Look at hello: fail; this blocks 1 step",
        "unsure": "Look at hello: unsure",
    }
    failed = after_event(before, Judged(judged(("hello", "differs")), "more", "hello"), 1.0)
    assert "* Look at hello: fail; this blocks 1 step" in console(failed, 80, 24)
