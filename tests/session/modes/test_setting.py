"""Options are set on the board."""

import dataclasses

from helpers.bench_state import after, asked_by, console, state
from termprobe.journal.records import AS_EXPECTED
from termprobe.session.messages import Send, SetOption

MADE = state("word", "setting")


def test_an_option_that_a_step_needs_is_written_down_and_the_step_sent():
    assert "Set duplex to full." in console(MADE) and "For: Type a word" in console(MADE)
    assert asked_by(MADE, "y") == (SetOption("duplex", "full"), Send("word", 1.0))


def test_several_options_are_asked_for_one_after_the_other():
    step = dataclasses.replace(MADE.step, settings=(("duplex", "full"), ("line", "local")))
    steps = tuple(step if one.id == step.id else one for one in MADE.plan.steps)
    made = state("word", "setting", plan=dataclasses.replace(MADE.plan, steps=steps))
    assert "Then: line to local" in console(made)
    assert asked_by(made, "y") == (SetOption("duplex", "full"),)
    assert "Set line to local." in console(after(made, "y"))


def test_a_step_of_its_own_is_answered():
    made = state("half-duplex", "setting")
    (record,) = asked_by(made, "enter")
    assert record.answer.word == AS_EXPECTED
    assert after(made, "enter").course.positions == {"duplex": "half"}
