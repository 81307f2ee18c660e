"""Steps are taken in hand: caution, options, sending."""

from dataclasses import replace

from helpers.bench_plan import look, plan, step, text
from helpers.bench_state import (
    after,
    after_event,
    answers,
    asked_by,
    console,
    course,
    judged,
    state,
)
from termprobe.journal.records import Answer, Answered
from termprobe.runner.pace import SLOWEST
from termprobe.session.messages import Send
from termprobe.session.mode_table import MODES
from termprobe.session.react.in_hand import go_back, take


def test_a_caution_comes_before_its_step_until_it_was_read():
    made, requests = take(state(), "supply-5v")
    assert (made.mode, requests) == ("caution", ())
    read = state(acknowledged=frozenset({made.step.caution}))
    assert take(read, "supply-5v")[1] == (Send("supply-5v", 1.0),)


def test_options_are_set_before_a_step_that_needs_them():
    assert take(state(), "word")[0].mode == "setting"
    assert take(state(positions={"duplex": "full"}), "word")[0].mode == "waiting"
    assert take(state(), "half-duplex")[0].mode == "waiting", "setting it is the step itself"


def test_a_step_begins_anew_with_nothing_of_the_one_before():
    made = state(typed=b"an", marks={(0, 0): "x"}, remark="dim", pace=4.0, turns=1)
    found, _ = take(made, "more")
    assert (found.typed, found.marks, found.remark, found.pace) == (b"", {}, "", 1.0)
    assert found.turns == 0
    assert take(made, None)[0].mode == "ended"


def test_each_wish_for_slower_sending_doubles_the_time_up_to_a_limit():
    assert asked_by(state(pace=2.0), "l") == (Send("hello", 4.0),)
    assert asked_by(state(pace=SLOWEST), "l") == (Send("hello", SLOWEST),)
    assert asked_by(state(pace=2.0), "r") == (Send("hello", 2.0),)


def test_back_passes_over_the_step_in_hand():
    made = state("more", trail=("hello", "more"))
    assert after(made, "b").step_id == "hello"
    assert "no step was answered" in after(state(trail=("hello",)), "b").notice


def walked(*keys):
    """Return the state in hand of `corners` after keys, two looks answered before."""
    records = [Answered("supply-5v", Answer(value=5.04)), *answers(("hello", "as-expected"))]
    made = course([*records, *answers(("more", "differs"))])
    return after(replace(state("corners"), course=made), *keys)


def test_back_shows_the_earlier_answer_with_its_value():
    assert "answered before: fail" in walked("b").notice
    there = replace(walked("b"), mode="look")
    there = replace(after(there, "b"), mode="look")
    assert "answered before: pass (5.04 V, within the limits" in after(there, "b").notice


def test_forward_goes_again_through_what_was_gone_back_over():
    made = walked("b")
    made = replace(after(replace(made, mode="look"), "b"), mode="look")
    assert made.step_id == "hello"
    onwards = after(made, "f")
    assert onwards.step_id == "more" and "answered before: fail" in onwards.notice
    assert after(replace(onwards, mode="look"), "f").step_id == "corners"


def test_a_new_answer_goes_forward_through_it_too():
    made = walked("b")
    made = replace(after(replace(made, mode="look"), "b"), mode="waiting", is_known=True)
    event = judged(answers(("hello", "unsure"), ("more", "differs")), "corners", "hello")
    assert after_event(made, event).step_id == "more"


def test_forward_is_offered_only_where_something_was_gone_back_over():
    assert MODES["look"].find("f", state()) is None
    assert "f forward" in console(replace(walked("b"), mode="look"))


def test_a_reply_that_was_gone_back_to_is_shown_and_not_asked_for_again():
    reply = step("identity", "link", "reply", reply=b"\x1bX")
    made = plan(reply, look("one", "screen", text("ONE")))
    records = [Answered("identity", Answer("differs", data=b"\x1bY"))]
    there = replace(state("one"), course=course(records, plan=made))
    back, requests = go_back(there, "b")
    assert (back.mode, requests) == ("reply", ()) and 'not ESC "Y"' in back.notice
    assert after(back, "enter").step_id == "one"


def test_the_list_leads_elsewhere_with_nothing_ahead():
    made = replace(walked("b"), mode="look")
    assert after(made, "j", "home", "enter").course.ahead == ()
