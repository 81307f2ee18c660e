"""An option is set on the board, as a step of its own or because the step in hand needs it."""

from dataclasses import replace

from termprobe.observer.base import AS_EXPECTED, Answer
from termprobe.plan.model import SWITCH
from termprobe.session.draw.rows import Rows, blank, paragraph
from termprobe.session.messages import SetOption
from termprobe.session.mode import Key, Mode, View
from termprobe.session.react.answering import after_looking, answered
from termprobe.session.react.in_hand import send_when_set
from termprobe.session.shared_keys import AT_ANY_TIME, JUMP_AWAY, SKIP
from termprobe.session.standing import settings_due
from termprobe.session.state import Reaction, State


@after_looking
def _is_set(state: State, key: str) -> Reaction:
    """The option that was asked for stands: ask for the next, or go on."""
    option, position = _asked(state)[0]
    known = replace(state, options={**state.options, option: position})
    if state.step.kind == SWITCH:
        return answered(known, Answer(AS_EXPECTED))
    after, requests = send_when_set(known)
    return after, (SetOption(option, position), *requests)


def _asked(state: State) -> tuple[tuple[str, str], ...]:
    """Return ((option, position), ...) that are to be set, the first of them now."""
    step = state.step
    if step.kind == SWITCH:
        return ((step.option or "", step.position or ""),)
    return settings_due(state, step)


def _panel(view: View) -> Rows:
    state, columns = view.state, view.columns
    (option, position), *later = _asked(state)
    rows = [blank(), *paragraph(f"Set {option} to {position}.", columns, "class:strong"), blank()]
    for known in state.profile.options:
        if known.name == option:
            rows += paragraph(str(known.meaning), columns)
    if later:
        names = ", ".join(f"{its_option} to {its_position}" for its_option, its_position in later)
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
        Key("y enter", _is_set, "it is set", "the option stands as asked; it is written down"),
        SKIP,
        JUMP_AWAY,
        *AT_ANY_TIME,
    ),
    kind=SWITCH,
    is_of_step=True,
    panel=_panel,
)
