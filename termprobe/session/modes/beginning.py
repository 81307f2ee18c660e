"""Before the first step: what the session begins with is shown."""

from dataclasses import replace

from termprobe.session.draw.fit import cut
from termprobe.session.draw.rows import Rows, blank, paragraph, plain
from termprobe.session.messages import Judged
from termprobe.session.mode import Mode, ModeKey, View
from termprobe.session.react.in_hand import take
from termprobe.session.shared_keys import AT_ANY_TIME
from termprobe.session.state import Reaction, State


def _go_on(state: State, key: str) -> Reaction:
    """Go to the first step; a key that comes before it is known is remembered."""
    if state.is_known:
        return take(state, state.step_id)
    return state.at("waiting"), ()


def _take_verdicts(state: State, event: Judged) -> Reaction:
    return replace(state, step_id=event.next_id), ()


def _panel(view: View) -> Rows:
    state, columns = view.state, view.columns
    title = cut(state.plan.title, columns - 3)
    rows = [blank(), plain(f"  {title}", "class:strong"), blank()]
    for text in state.opening:
        rows += [*paragraph(text, columns), blank()]
    return rows + paragraph("Press enter to begin, ? for help.", columns, "class:strong")


MODE = Mode(
    name="beginning",
    title="before the first step",
    keys=(ModeKey("enter space y", _go_on, "go on", "go on"), *AT_ANY_TIME),
    has_step=False,
    on_judged=_take_verdicts,
    panel=_panel,
)
