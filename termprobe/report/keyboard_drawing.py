"""The keyboard drawn as text: each key with a mark for what its presses have shown."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from typing import NamedTuple

from termprobe.plan.model import KeyPress
from termprobe.profile.draw import caps, draw_keyboard
from termprobe.profile.model import Keyboard
from termprobe.verdict import model
from termprobe.verdict.model import Pressed, StepVerdict, is_unheard
from termprobe.verdict.noticed import Missing


class KeyState(NamedTuple):
    """What the presses of a key have shown."""

    mark: str
    """Stands in the upper right corner of the key; colour never stands alone."""
    meaning: str
    """In words; empty where the legend leaves it out."""


RIGHT = KeyState("+", "right")
WRONG = KeyState("x", "wrong")
ALL_MISSING = KeyState("0", "no code")
PARTLY = KeyState(":", "so far right")
UNTESTED = KeyState(".", "untested")
LEFT_OUT = KeyState("-", "left out")
ASKED = KeyState(">", "asked")
NONE = KeyState(" ", "")
_UNTRIED = (model.UNANSWERED, model.BLOCKED)
KEY_MARKS = (RIGHT, WRONG, ALL_MISSING, PARTLY, UNTESTED, LEFT_OUT, ASKED, NONE)


@dataclass(frozen=True)
class KeyMark:
    """Where the mark of one key stands in the drawing, and what the key's state is."""

    line: int
    column: int
    state: KeyState


def states(
    keyboard: Keyboard,
    steps: Iterable[KeyPress],
    verdicts: Mapping[str, StepVerdict],
    asked: KeyPress | None = None,
) -> dict[str, KeyState]:
    """Return key name -> state.

    `steps` are the plan's presses, `verdicts` step id -> StepVerdict, `asked` the one that is
    waited for.
    """
    own: dict[str, list[StepVerdict]] = {str(key.name): [] for key in keyboard.keys}
    for step in steps:
        if step.press.key in own and step.id in verdicts:
            own[step.press.key].append(verdicts[step.id])
    found = {name: _state(its) for name, its in own.items()}
    if asked is not None:
        found[asked.press.key] = ASKED
    return found


def _state(own: Sequence[StepVerdict]) -> KeyState:
    """Return the state of a key by the verdicts of its presses: the worst one speaks."""
    if not own:
        return NONE
    words = {verdict.verdict for verdict in own}
    bad = [verdict for verdict in own if verdict.verdict == model.FAIL or is_unheard(verdict)]
    if bad:
        return ALL_MISSING if all(map(_is_silent, bad)) else WRONG
    if words <= set(_UNTRIED):
        return UNTESTED
    if not words.isdisjoint(_UNTRIED):
        return PARTLY
    return LEFT_OUT if model.SKIPPED in words else RIGHT


def _is_silent(verdict: StepVerdict) -> bool:
    """Return whether nothing at all came of a press."""
    if not isinstance(verdict.because, Pressed):
        return is_unheard(verdict)
    first = verdict.because.noticed[0]
    return isinstance(first, Missing) and not first.of_chord


def marks(keyboard: Keyboard, key_states: Mapping[str, KeyState]) -> tuple[KeyMark, ...]:
    """Return the KeyMark of every key that has a state to show."""
    found: list[KeyMark] = []
    for cap in caps(keyboard):
        state = key_states[str(cap.key.name)]
        if state != NONE:
            found.append(KeyMark(cap.line, cap.column + cap.width - 1, state))
    return tuple(found)


def drawing(keyboard: Keyboard, key_states: Mapping[str, KeyState]) -> tuple[str, ...]:
    """Return the keyboard as lines of text with the marks in it, and below what they mean."""
    lines = [list(line) for line in draw_keyboard(keyboard)]
    for mark in marks(keyboard, key_states):
        lines[mark.line][mark.column] = mark.state.mark
    drawn = ["".join(line).rstrip() for line in lines]
    return (*drawn, legend())


def legend() -> str:
    """Return the line that explains the marks."""
    named = [state for state in KEY_MARKS if state.meaning]
    return "  ".join(f"{state.mark} {state.meaning}" for state in named)
