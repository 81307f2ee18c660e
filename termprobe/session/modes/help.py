"""What the keys of the mode beneath do is shown."""

from dataclasses import replace

from termprobe.session.draw.fit import cut, pad, wrap
from termprobe.session.draw.rows import Rows, blank, paragraph, plain
from termprobe.session.draw.step_list import VERDICT_MARKS
from termprobe.session.mode import Mode, ModeKey, View
from termprobe.session.react.asides import interrupt
from termprobe.session.state import Reaction, State
from termprobe.verdict.model import UNANSWERED

KEY_COLUMNS = 26
LEAST_COLUMNS = 10
"""So many columns a text has at least."""


def _turn_page(state: State, key: str) -> Reaction:
    return replace(state, page=state.page + 1), ()


def _leave(state: State, key: str) -> Reaction:
    return state.back(), ()


def _panel(view: View) -> Rows:
    """Return the page that is turned to."""
    rows = _all_rows(view)
    pages = max(1, -(-len(rows) // max(view.rows, 1)))
    first = view.state.page % pages * view.rows
    return rows[first : first + view.rows]


def _all_rows(view: View) -> Rows:
    step, mode, columns = view.state.step, view.beneath, view.columns
    rows = [plain(cut(f" {mode.title}", columns), "class:strong")]
    for text in filter(None, (step.question, step.caution)):
        rows += [*paragraph(text, columns), blank()]
    for names, text in mode.help_lines(view.state.is_practice):
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
        ModeKey(
            "down pagedown space",
            _turn_page,
            "more",
            "the rest of a help that is longer than the console",
        ),
        ModeKey("c-c", interrupt, "", "stop the session at once"),
        ModeKey("enter", _leave, "back", "back; so does any other key"),
    ),
    other=_leave,
    panel=_panel,
)
