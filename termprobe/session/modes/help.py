"""What the keys of the mode beneath do is shown."""

from termprobe.session.draw.fit import cut, pad, wrap
from termprobe.session.draw.rows import Rows, blank, paragraph, plain
from termprobe.session.draw.step_list import VERDICT_MARKS
from termprobe.session.mode import Mode, View
from termprobe.session.react.asides import leave
from termprobe.session.react.viewing import WAYS
from termprobe.session.shared_keys import INTERRUPT, PAGE_BACK, PAGE_ON, way_back
from termprobe.session.state import Reaction, State
from termprobe.verdict.model import UNANSWERED

KEY_COLUMNS = 26
LEAST_COLUMNS = 10
"""So many columns a text has at least."""
STAYING = (*WAYS, "space")
"""Keys that never lead back."""


def _leave(state: State, key: str) -> Reaction:
    """Lead back, but by keys that turn pages or move: there is no further page."""
    if key in STAYING:
        return state, ()
    return leave(state, key)


def _text(view: View) -> Rows:
    step, mode, columns = view.state.step, view.beneath, view.columns
    rows = [plain(cut(f" {mode.title}", columns), "class:strong")]
    for text in filter(None, (step.question, step.caution)):
        rows += [*paragraph(text, columns), blank()]
    for names, text in mode.help_lines(view.state):
        rows += _key_rows(names, text, columns)
    marks = [f"{mark} {word}" for word, mark in VERDICT_MARKS.items() if word != UNANSWERED]
    rows += [blank(), *paragraph(f"Verdicts: {', '.join(marks)}", columns)]
    if mode.help_more:
        rows.append(plain(cut(f"  {mode.help_more}", columns)))
    return rows


def _key_rows(names: str, text: str, columns: int) -> Rows:
    """Return keys and what they do, in as many rows as that takes."""
    first, *rest = wrap(text, max(columns - KEY_COLUMNS - 2, LEAST_COLUMNS))
    head = [
        ("class:strong", pad(f"  {names}", KEY_COLUMNS)),
        ("", cut(first, columns - KEY_COLUMNS)),
    ]
    return [head, *(plain(" " * KEY_COLUMNS + line) for line in rest)]


MODE = Mode(
    name="help",
    title="help",
    keys=(
        PAGE_ON,
        PAGE_BACK,
        way_back("enter", leave, "back", "back; so does any other key but the arrow keys"),
        INTERRUPT,
    ),
    other=_leave,
    text=_text,
)
