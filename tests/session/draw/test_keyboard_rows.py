"""The keyboard drawn on the console."""

from hypothesis import given
from hypothesis import strategies as some

from helpers.bench_state import LINE, course
from termprobe.plan.compile import compile_plan
from termprobe.plan.model import KeyPress
from termprobe.profile.load import load
from termprobe.script.load import load as load_script
from termprobe.session.draw.keyboard_rows import keyboard_rows
from termprobe.session.state import State

PROFILE = load("singlebyte-24x80")
PLAN = compile_plan(PROFILE, load_script("keyboard"))


@given(
    some.sampled_from([step.id for step in PLAN.steps if isinstance(step, KeyPress)]),
    some.integers(-2, 90),
    some.integers(0, 20),
)
def test_the_key_asked_for_is_in_sight_on_any_console(step_id, columns, rows):
    made = State(course(plan=PLAN), PROFILE, LINE, mode="pressing", step_id=step_id)
    lines = keyboard_rows(made, columns, rows)
    assert len(lines) <= rows
    for line in lines:
        assert sum(len(text) for _, text in line) <= max(columns, 0) + 1
    asked = [text for line in lines for style, text in line if style == "class:cursor"]
    assert asked == [">"] or columns < 16 or rows < 3
