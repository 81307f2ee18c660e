"""A step that this terminal cannot do is shown, and left again."""

import dataclasses

import pytest

from helpers.bench_plan import CAUTION, KINDS, PROFILE, look, plan, step, text
from helpers.bench_state import after, after_event, answers, asked_by, console, judged, state
from termprobe.plan.compile import compile_plan
from termprobe.script.load import load as load_script
from termprobe.session.messages import Lost, ReadReport, Regained, Send
from termprobe.session.react import dispatch, hearing

WHY = "profile made-up describes no keyboard"
FIELDS = {
    "typed-back": {"word": "any"},
    "switch": {"option": "duplex", "position": "half"},
}
HELLO = look("hello", "screen", text("HELLO"))


def unfitted(kind):
    """Return a plan of a look and a step of that kind which is not fitted."""
    fields = FIELDS.get(kind, {})
    cannot = step("all", "keyboard", kind, not_fitted=WHY, caution=CAUTION, **fields)
    return plan(HELLO, dataclasses.replace(cannot, title="All keys"))


def chosen(kind, **changes):
    """Return the state once the step was chosen in the list."""
    made = state(plan=unfitted(kind), is_known=True, **changes)
    made, requests = dispatch.press(after(made, "j", "end"), "enter", 1.0)
    assert requests == (), "nothing is sent"
    return made


@pytest.mark.parametrize("kind", sorted(KINDS))
def test_title_and_reason_are_shown_whatever_kind_it_is(kind):
    made = chosen(kind)
    assert (made.mode, made.step_id) == ("not-fitted", "all")
    for columns, rows in ((80, 24), (200, 60)):
        shown = console(made, columns, rows)
        assert "Keyboard - All keys" in shown
        assert f"Not fitted: {WHY}." in shown
        assert "enter go on  b back  j jump" in shown and "y as expected" not in shown
    assert "this terminal cannot do the step" in console(after(made, "?"), 80, 24)


@pytest.mark.parametrize("kind", ["keys", "chords"])
def test_it_is_left_for_the_step_that_waits_for_the_list_and_for_the_one_before(kind):
    made = chosen(kind)
    assert asked_by(made, "enter") == (Send("hello", 1.0),)
    assert after(made, "j").mode == "list"
    assert after(made, "j", "j", now_s=1.0) == made
    assert "no step was answered" in after(made, "b").notice
    assert asked_by(chosen(kind, trail=("hello",)), "b") == (Send("hello", 1.0),)


def test_where_all_is_answered_it_is_left_for_the_end():
    done = judged(answers(("hello", "as-expected")), None, plan=unfitted("keys"))
    made = after_event(chosen("keys"), done)
    assert (made.mode, made.step_id) == ("not-fitted", "all")
    assert after(made, "enter").mode == "ended" and asked_by(made, "enter") == (ReadReport(),)


def test_nothing_is_sent_when_the_line_is_back():
    lost = after_event(chosen("keys"), Lost("gone"))
    made, requests = hearing.hear(lost, Regained("back"), 1.0)
    assert (made.mode, requests) == ("not-fitted", ())


def test_the_walk_over_a_keyboard_that_is_not_described_can_be_looked_at():
    bare = dataclasses.replace(PROFILE, keyboard=None)
    made = state(None, "ended", plan=compile_plan(bare, load_script("keyboard")))
    for name in [one.id for one in made.plan.steps]:
        made = after(made, "j", "home")
        while made.plan.steps[made.chosen].id != name:
            made = after(made, "down")
        made = after(made, "enter")
        assert made.step_id == name
        assert "Not fitted: profile singlebyte-24x80 describes no keyboard" in console(made)
