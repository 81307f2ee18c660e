"""A line is typed: a reading, a reason, a note, whatever another mode asks for."""

from dataclasses import replace

from termprobe.session.draw.fit import columns_of, cut
from termprobe.session.draw.rows import Row
from termprobe.session.mode import Mode, ModeKey
from termprobe.session.react.asides import interrupt, leave
from termprobe.session.react.typed_lines import accept, prompt
from termprobe.session.shared_keys import way_back
from termprobe.session.state import Reaction, State

PROMPT_LEAVES, LEAST_ROOM = 10, 8
"""So many columns the prompt leaves to the text, and the text has at least."""


def _type(state: State, key: str) -> Reaction:
    """Take one more character; what is no character is left out."""
    text = " " if key == "space" else key
    if len(text) != 1 or not text.isprintable():
        return state, ()
    return replace(state, text=state.text + text, notice=""), ()


def _accept(state: State, key: str) -> Reaction:
    """Take the line typed."""
    return accept(state)


def _rub_out(state: State, key: str) -> Reaction:
    """Rub out the last character, or leave an empty line."""
    if not state.text:
        return leave(state, key)
    return replace(state, text=state.text[:-1], notice=""), ()


def _clear(state: State, key: str) -> Reaction:
    """Forget the line, stay in it."""
    return replace(state, text="", notice=""), ()


def _typing_row(state: State, columns: int) -> Row:
    """Return prompt and text; the text's end stays in sight."""
    words = f" {prompt(state)}: "
    room = max(columns - columns_of(words) - 2, LEAST_ROOM)
    kept = room if columns_of(state.text) <= room else room // 2
    return [
        ("class:strong", cut(words, columns - PROMPT_LEAVES)),
        ("class:line", state.text[-kept:]),
        ("class:cursor", " "),
    ]


MODE = Mode(
    name="typing",
    title="type a line",
    keys=(
        ModeKey("enter", _accept, "done", "take the line"),
        ModeKey(
            "backspace c-h delete",
            _rub_out,
            "",
            "rub out the last character; on an empty line: back",
        ),
        ModeKey("c-u", _clear, "clear", "clear the line"),
        way_back("c-g", leave, "back", "back, the line is forgotten"),
        ModeKey("c-c", interrupt, "", "stop the session at once"),
    ),
    other=_type,
    typing_row=_typing_row,
)
