"""Keys and events in every order that a quick hand and a slow line can bring about.

The session never hangs, and never jumps over a step.
"""

import dataclasses

from helpers.bench import look
from helpers.bench_plan import PROFILE, full_plan, plan, step
from helpers.bench_state import LINE, after, after_event, answers, console, course, judged, state
from helpers.predicted import predictions_of
from termprobe.journal.records import AS_EXPECTED, Answer, Answered, BoardUnderTest
from termprobe.link.base import Received
from termprobe.session.drawn_anew import Torn
from termprobe.session.messages import (
    Foreseen,
    Judged,
    Lost,
    PressHeard,
    RecordAnswer,
    Regained,
    Send,
    Shown,
)
from termprobe.session.opening import first_state
from termprobe.session.react import dispatch, hearing
from termprobe.session.react.in_hand import take

POSITIONS = {"duplex": "full"}


class Hand:
    """A session without worker and console: applies keys and events, keeps the requests."""

    def __init__(self, *done):
        self.done, self.requests, self.now_s = list(done), [], 100.0
        self.state = first_state(
            full_plan(),
            PROFILE,
            LINE,
            BoardUnderTest("0007"),
            "sim:",
            positions=POSITIONS,
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
        records = [Answered(name, Answer(AS_EXPECTED, value=5.0)) for name in self.done]
        return self.hear(judged(records, next_id, answered, positions=POSITIONS))

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
    before = state(mode="waiting")
    told = {}
    for word in ("as-expected", "differs", "unsure"):
        made = after_event(before, judged(answers(("hello", word)), "more", "hello"), 1.0)
        told[word] = made.notice
    assert told == {
        "as-expected": "",
        "differs": "Look at hello: fail; this blocks 1 step",
        "unsure": "Look at hello: unsure",
    }
    failed = after_event(before, judged(answers(("hello", "differs")), "more", "hello"), 1.0)
    assert "* Look at hello: fail; this blocks 1 step" in console(failed, 80, 24)


def test_the_steps_that_a_failed_one_blocks_are_counted():
    steps = (look("a"), look("b", needs=("a",)), look("c", needs=("b",)))
    made = dataclasses.replace(state(mode="waiting"), course=course(plan=plan(*steps)))
    failed = course([Answered("a", Answer("differs"))], plan(*steps))
    told = after_event(made, Judged(failed, "a"), 1.0).notice
    assert told == "Look at a: fail; this blocks 2 steps"


GUARDED = step("press/q", "keys", "press", caution="Let go.", settings=(("duplex", "full"),))


def test_late_news_does_not_take_back_what_the_builder_has_done_meanwhile():
    """So it is where a press is taken back, and the worker is busy while the builder reads on."""
    made = state("press/q", "caution", plan=plan(GUARDED), is_known=True)
    late = judged((), "press/q", plan=plan(GUARDED))
    read = after_event(after(made, "enter"), late)
    assert "Set duplex to full." in console(read)
    set_ = after_event(after(read, "y", now_s=1.0), late)
    assert set_.mode == "waiting" and set_.course.positions == POSITIONS


def test_an_answer_stands_once_in_the_trail_also_where_it_comes_with_the_first_verdicts():
    made = state(mode="waiting", is_known=False)
    first = after_event(made, judged(answers(("hello", "as-expected")), "more", "hello"))
    assert first.course.trail == ("hello",)
    again = judged(answers(("hello", "as-expected"), ("more", "unsure")), "corners", "more")
    assert after_event(first, again).course.trail == ("hello", "more")


def test_a_step_is_not_sent_when_the_line_is_back_before_what_is_due_is_done():
    for mode in ("caution", "setting"):
        read = frozenset({"Let go."} if mode == "setting" else ())
        made = state("press/q", mode, plan=plan(GUARDED), acknowledged=read)
        lost = after_event(made, Lost("gone"))
        made, requests = hearing.hear(lost, Regained("back"), 1.0)
        assert (made.mode, requests) == (mode, ()), mode
        assert "* back" in console(made)


def test_more_of_the_last_press_is_judged_anew_in_whatever_mode_the_console_is():
    two = plan(step("press/q", "keys", "press"), step("press/w", "keys", "press"))
    events = (Received(0.1, b"q"), Received(0.12, b"q"))
    for mode in ("pressing", "waiting", "help", "ended"):
        made = state("press/w", mode, plan=two, heard_id="press/q", beneath=("pressing",))
        after, (record,) = hearing.hear(made, PressHeard(events, is_more=True), 1.0)
        assert after.mode == mode and record.amends
        assert (record.step_id, record.answer.data) == ("press/q", b"qq")
    nobody = state("press/w", "pressing", plan=two)
    assert hearing.hear(nobody, PressHeard(events, is_more=True), 1.0)[1] == ()


def test_an_amended_answer_changes_its_verdict_and_nothing_else():
    made = state("more", "look", trail=("hello",), is_known=True)
    event = dataclasses.replace(
        judged(answers(("hello", "differs")), "more", "hello"), is_amended=True
    )
    after, requests = hearing.hear(made, event, 1.0)
    assert (after.mode, after.step_id, requests) == ("look", "more", ())
    assert after.course.word("hello") == "fail" and after.course.trail == ("hello",)


def test_what_is_predicted_is_kept_for_the_step_in_hand_alone():
    of_step = Foreseen(predictions_of(state().step))
    assert after_event(state(), of_step).predictions == of_step.predictions
    assert after_event(state("corners"), of_step).predictions is None
    choosing = after(after_event(state(), of_step), "n", "down")
    assert after_event(choosing, of_step).picked == 1


def test_what_was_predicted_for_a_step_is_gone_with_it():
    made = after_event(state(), Foreseen(predictions_of(state().step)))
    assert take(made, "corners")[0].predictions is None


def test_a_chain_that_must_be_drawn_anew_is_taken_from_its_first_step_and_followed_to_the_last():
    chain = [look("a"), look("b", continues=True), look("c", continues=True), look("z")]
    made = state("c", mode="waiting", plan=plan(*chain), is_known=True)
    torn, requests = hearing.hear(made, Torn("c", ("a", "b")), 1.0)
    assert torn.step_id == "a" and [request.step_id for request in requests] == ["a"]
    assert "Look at c goes on from this screen, which is drawn anew" in torn.notice
    order = []
    while torn.step_id != "z":
        order.append(torn.step_id)
        torn = after(after_event(torn, Shown(torn.step_id, 0.0)), "y", now_s=20.0)
        answered = answers(*((one, AS_EXPECTED) for one in order))
        torn = after_event(torn, judged(answered, "z", order[-1], plan=plan(*chain)))
    assert order == ["a", "b", "c"]
    assert hearing.hear(made, Torn("other", ("a",)), 1.0) == (replace_now(made), ())


def replace_now(made):
    return dataclasses.replace(made, now_s=1.0)
