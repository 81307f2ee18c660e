"""What a check of the line found is seen before the session goes on."""

from helpers.bench_plan import look, plan, text
from helpers.bench_state import after_event, asked_by, console, judged, state
from termprobe.journal.records import DIFFERS, Answer, Answered
from termprobe.plan.model import LineCheck
from termprobe.session.messages import Send

CHECK = LineCheck("echo", "link", "Nothing comes back", "A token is sent.", check="no-echo")
PLAN = plan(CHECK, look("first", "screen", text("ONE")))
RECORDS = [Answered("echo", Answer(DIFFERS, note="I hear myself"), CHECK.hash)]
MADE = state("echo", "waiting", plan=PLAN, is_known=True)


def held():
    return after_event(MADE, judged(RECORDS, "first", "echo", is_held=True, plan=PLAN), 1.0)


def test_what_was_found_is_shown_and_a_key_goes_on():
    made = held()
    assert made.mode == "line-check" and made.next_id == "first"
    shown = console(made)
    assert "I hear myself" in shown and "A token is sent." in shown
    assert asked_by(made, "enter") == (Send("first", 1.0),)


def test_a_cable_that_was_found_is_drawn():
    rows = ("3 TXD -----+", "2 RXD -----+")
    found = Answer(DIFFERS, note="data-joined", drawn=rows)
    records = [Answered("echo", found, CHECK.hash)]
    made = after_event(MADE, judged(records, "first", "echo", is_held=True, plan=PLAN), 1.0)
    assert all(f"  {row}" in console(made) for row in rows)
