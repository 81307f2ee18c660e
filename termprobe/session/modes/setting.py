"""An option is set on the board, as a step of its own or because the step in hand needs it."""

from dataclasses import replace

from termprobe.journal.records import AS_EXPECTED, Answer
from termprobe.plan.model import Switch
from termprobe.runner.due import OptionDue
from termprobe.session.draw.rows import Rows, blank, paragraph
from termprobe.session.messages import SetOption
from termprobe.session.mode import Mode, ModeKey, View
from termprobe.session.react.answering import after_looking, answered
from termprobe.session.react.in_hand import go_on
from termprobe.session.shared_keys import (
    AT_ANY_TIME,
    BACK_KEY,
    FORWARD_KEY,
    JUMP_AWAY,
    SKIP_KEY,
    SKIP_STAGE_KEY,
)
from termprobe.session.state import Reaction, State


@after_looking
def _is_set(state: State, key: str) -> Reaction:
    """The option that was asked for stands: ask for the next, or go on."""
    asked = _asked(state)
    known = replace(state, course=state.course.set(asked.option, asked.position))
    if isinstance(state.step, Switch):
        return answered(known, Answer(AS_EXPECTED))
    after, requests = go_on(known)
    return after, (SetOption(asked.option, asked.position), *requests)


def _asked(state: State) -> OptionDue:
    """Return what is to be set now."""
    step, due = state.step, state.course.due(state.step)
    if isinstance(step, Switch):
        return OptionDue(step.option, step.position)
    if not isinstance(due, OptionDue):
        raise RuntimeError(f"{step.id} must have an option to be set")
    return due


def _panel(view: View) -> Rows:
    state, columns = view.state, view.columns
    asked = _asked(state)
    words = f"Set {asked.option} to {asked.position}."
    rows = [blank(), *paragraph(words, columns, "class:strong"), blank()]
    for known in state.profile.options:
        if known.name == asked.option:
            rows += paragraph(str(known.meaning), columns)
    if asked.then:
        names = ", ".join(f"{option} to {position}" for option, position in asked.then)
        rows += paragraph(f"Then: {names}", columns)
    return [
        *rows,
        blank(),
        *paragraph(f"For: {state.step.title}", columns),
        *paragraph(state.step.question, columns),
    ]


MODE = Mode(
    name="setting",
    title="set the option on the board",
    keys=(
        ModeKey("y enter", _is_set, "it is set", "the option stands as asked; it is written down"),
        SKIP_KEY,
        SKIP_STAGE_KEY,
        BACK_KEY,
        FORWARD_KEY,
        JUMP_AWAY,
        *AT_ANY_TIME,
    ),
    kind=Switch.kind,
    is_of_step=True,
    panel=_panel,
)
