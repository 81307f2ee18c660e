"""A wrong reply is seen before the session goes on."""

from helpers.bench_plan import look, plan, step, text
from helpers.bench_state import asked_by, console, state
from termprobe.session.messages import Send

PLAN = plan(step("identity", "link", "reply", reply=b"\x1bX"), look("first", "screen", text("ONE")))
MADE = state("identity", "reply", plan=PLAN, next_id="first")


def test_what_must_come_back_is_shown_and_a_key_goes_on():
    assert 'Must come back: ESC "X"' in console(MADE)
    assert asked_by(MADE, "enter") == (Send("first", 1.0),)
