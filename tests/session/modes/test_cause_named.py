"""A fault is named: the builder carries on with it, mends it, or wants to be asked on."""

import dataclasses
from dataclasses import replace

import pytest

from helpers.bench_state import after, after_event, asked_by, console, course, state
from termprobe.journal.known_fault import KnownFault, ToRepair
from termprobe.runner.known_fault import NamedFault, Prospect
from termprobe.session.messages import DecideFault, Judged, Prospected, Quit, Send, Shown
from termprobe.session.react import hearing

STUCK = "bank-0-data/stuck/2/0"
NAMED = NamedFault(
    STUCK,
    ("bank-0-data/stuck/9/0",),
    "data line 2 of RAM bank 0 is stuck at 0",
    ("a", "b"),
    ("c",),
    ("Probe data line 2: it must go both high and low.",),
)
FOUND = Prospected(Prospect(NAMED))


def named(**changes):
    return after_event(state(**changes), FOUND, now_s=50.0)


def test_it_is_told_over_a_look_with_what_to_probe():
    made = named()
    assert (made.mode, made.beneath) == ("cause-named", ("look",))
    shown = console(made, 80, 24)
    assert "data line 2 of RAM bank 0 is stuck at 0" in shown and "Probe data line 2" in shown
    assert "c carry on" in shown and "m mend now" in shown and "Esc ask on" in shown
    assert "No look tells it from bank-0-data/stuck/9/0" in shown


def test_where_nothing_can_be_foreseen_looks_are_said_to_wait():
    unforeseen = dataclasses.replace(NAMED, is_foreseen=False)
    made = after_event(state(), Prospected(Prospect(unforeseen)), now_s=50.0)
    shown = " ".join(console(made, 100, 40).split())
    assert "cannot be foreseen" in shown and "is drawn as this board shows it" not in shown


@pytest.mark.parametrize("mode", ["marking", "waiting", "list", "typing"])
def test_it_interrupts_nothing_and_is_told_at_the_next_look(mode):
    beneath = ("look",) if mode in ("list", "typing") else ()
    made = named(mode=mode, beneath=beneath)
    assert made.mode == mode
    later = replace(made, mode="waiting", beneath=())
    assert after_event(later, Shown("hello", 60.0), 60.0).mode == "cause-named"


def test_a_key_that_was_meant_for_the_look_does_not_decide():
    assert after(named(), "c", now_s=50.1).mode == "cause-named"


def test_to_carry_on_is_written_down_and_the_step_is_sent_anew():
    made = named()
    (request,) = asked_by(made, "c", now_s=51.0)
    assert request == DecideFault(
        KnownFault(STUCK, NAMED.alike, NAMED.title, NAMED.explains, NAMED.hidden)
    )
    waiting = after(made, "c", now_s=51.0)
    assert waiting.mode == "waiting"
    known = replace(waiting, is_known=True)
    event = Judged(course(left_open=frozenset({"supply-5v"})), is_decided=True)
    _, requests = hearing.hear(known, event, 52.0)
    assert any(isinstance(one, Send) for one in requests) or event.next_id is None


def test_to_mend_it_ends_the_session():
    decided, quits = asked_by(named(), "m", now_s=51.0)
    assert decided == DecideFault(ToRepair(STUCK, NAMED.alike, NAMED.title, NAMED.explains))
    assert quits == Quit()


@pytest.mark.parametrize("key", ["n", "escape"])
def test_whoever_wants_to_be_asked_on_is_not_told_again(key):
    made = after(named(), key, now_s=51.0)
    assert made.mode == "look" and made.ready_at_s == state().ready_at_s
    assert after_event(made, FOUND, now_s=55.0).mode == "look"


def test_a_look_is_shown_as_the_board_with_the_fault_shows_it():
    made = state(mode="waiting")
    changed = replace(made.step, question="Is it just as drawn?")
    shown = after_event(made, Shown("hello", 1.0, changed), 1.0)
    assert shown.step.question == "Is it just as drawn?"
    assert replace(shown, step_id="more").step.id == "more"
    assert after_event(replace(shown, mode="waiting"), Shown("hello", 2.0), 2.0).step == made.step
