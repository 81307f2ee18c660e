"""The keyboard with what the presses of each key have shown. Pure."""

from dataclasses import dataclass
from typing import NamedTuple

from termprobe.plan.model import KeyPress
from termprobe.profile.model import Key
from termprobe.report.chord_words import no_chords_in_words
from termprobe.report.facts.tones import BAD, GOOD, OPEN
from termprobe.report.keyboard_drawing import (
    ALL_MISSING,
    RIGHT,
    WRONG,
    KeyState,
    drawing,
    states,
)
from termprobe.report.record import RunReport

TONES = {RIGHT: GOOD, WRONG: BAD, ALL_MISSING: BAD}


class KeyFacts(NamedTuple):
    """One key, in units of key widths from the left and key heights from the top."""

    name: str
    legend: str
    left: float
    top: float
    width: float
    mark: str
    """A sign for what its presses have shown; blank where it was not to be pressed."""
    meaning: str
    tone: str
    """Empty where it was not to be pressed."""


@dataclass(frozen=True)
class KeyboardFacts:
    """The keys, and the same as a drawing of characters."""

    keys: tuple[KeyFacts, ...]
    width: float
    height: float
    drawn: tuple[str, ...]
    """Rows, the last of which explains the marks."""
    no_chords: str
    """Why no keys were asked for together; empty where they were, or nobody wanted them."""


def keyboard_facts(report: RunReport) -> KeyboardFacts | None:
    """Return the keyboard of a run; None where no key was pressed."""
    if report.keys is None:
        return None
    keyboard = report.keys.keyboard
    presses = [step for step in report.plan.steps if isinstance(step, KeyPress)]
    verdicts = {step.id: step for step in report.verdict.steps}
    found = states(keyboard, presses, verdicts)
    keys = tuple(_key(key, found[str(key.name)]) for key in keyboard.keys)
    return KeyboardFacts(
        keys,
        max(key.left + key.width for key in keys),
        max(key.top for key in keys) + 1,
        drawing(keyboard, found),
        no_chords_in_words(keyboard, report.plan),
    )


def _key(key: Key, state: KeyState) -> KeyFacts:
    tone = ""
    if state.meaning:
        tone = TONES.get(state, OPEN)
    return KeyFacts(
        str(key.name), key.legend, key.offset, key.row, key.width, state.mark, state.meaning, tone
    )
