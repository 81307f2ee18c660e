"""All stages and steps are listed, to go to any of them."""

from dataclasses import replace

from termprobe.plan.model import Step
from termprobe.session.draw.fit import cut
from termprobe.session.draw.rows import Row, Rows, part_around, plain
from termprobe.session.draw.step_list import entries, index_of, stage_counts, stage_title, step_row
from termprobe.session.mode import Mode, ModeKey, View
from termprobe.session.react.asides import leave
from termprobe.session.react.in_hand import take
from termprobe.session.shared_keys import BESIDE_A_STEP, way_back
from termprobe.session.state import Reaction, State
from termprobe.verdict.model import DISPUTED, FAIL, UNSURE


def _choose(state: State, key: str) -> Reaction:
    """Move through the list."""
    last = len(state.plan.steps) - 1
    stages = _stage_starts(state)
    indexes = {
        "up": state.chosen - 1,
        "down": state.chosen + 1,
        "home": 0,
        "end": last,
        "pageup": max((index for index in stages if index < state.chosen), default=0),
        "pagedown": min((index for index in stages if index > state.chosen), default=last),
    }
    return replace(state, chosen=min(max(indexes[key], 0), last)), ()


def _stage_starts(state: State) -> list[int]:
    """Return the indexes of the steps that their stages begin with."""
    stages = [step.stage for step in state.plan.steps]
    return [index for index, stage in enumerate(stages) if index == 0 or stages[index - 1] != stage]


def _next_failed(state: State, key: str) -> Reaction:
    """Move to the next step of the list that needs another look."""
    words = [state.course.word(step.id) for step in state.plan.steps]
    bad = [index for index, word in enumerate(words) if word in (FAIL, UNSURE, DISPUTED)]
    if not bad:
        return state.say("no step has failed, is unsure or disputed"), ()
    later = (index for index in bad if index > state.chosen)
    return replace(state, chosen=next(later, bad[0])), ()


def _go_to(state: State, key: str) -> Reaction:
    gone_on = replace(state, course=state.course.gone_on())
    return take(gone_on.say(""), state.plan.steps[state.chosen].id)


def _panel(view: View) -> Rows:
    state = view.state
    listed = entries(state.plan)
    chosen = state.plan.steps[state.chosen]
    part = part_around(index_of(listed, chosen), len(listed), view.rows)
    return [_row(state, entry, chosen, view.columns) for entry in listed[part]]


def _row(state: State, entry: str | Step, chosen: Step, columns: int) -> Row:
    """Return the row of a step, or of a stage with how far it is."""
    if not isinstance(entry, str):
        return step_row(state, entry, columns, is_chosen=entry is chosen)
    words = f" {stage_title(state, entry)}  {stage_counts(state, entry)}"
    return plain(cut(words, columns), "class:strong")


MODE = Mode(
    name="list",
    title="go to a step",
    keys=(
        ModeKey(
            "up down pageup pagedown home end",
            _choose,
            "choose",
            "move to another step; page keys go by stages",
        ),
        ModeKey(
            "f",
            _next_failed,
            "next failed",
            "to the next step that failed, is unsure or disputed",
        ),
        ModeKey("enter", _go_to, "go to", "go to the step"),
        way_back("j c-g backspace", leave, "back", "back to the step"),
        *BESIDE_A_STEP,
    ),
    panel=_panel,
)
