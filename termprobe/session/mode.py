"""What a mode is: what the session waits for, the keys it then understands, and what it shows.

Every module of termprobe/session/modes/ holds one as its MODE. A field that is left out means what
most modes do. Esc leaves each of them, and its footer names the way back.
"""

from collections.abc import Callable
from dataclasses import dataclass

from termprobe.session.draw.rows import Row, Rows, Styled
from termprobe.session.messages import Judged, PressHeard
from termprobe.session.react.viewing import WAYS, scroll
from termprobe.session.state import KeyAction, Reaction, State

SHOWN_NAMES = {
    "c-g": "ctrl-G",
    "c-c": "ctrl-C",
    "c-u": "ctrl-U",
    "c-w": "ctrl-W",
    "f1": "F1",
    "escape": "Esc",
}
"""How people write a key, where it is not its name."""


def shown_name(key: str) -> str:
    """Return the key's name as people write it."""
    return SHOWN_NAMES.get(key, key)


def _always(state: State) -> bool:
    return True


@dataclass(frozen=True)
class ModeKey:
    """Keys that do one thing in one mode."""

    names: str
    """Characters as typed, or names that prompt_toolkit gives; separated by blanks."""
    action: KeyAction
    label: str
    """For the footer; empty where the footer leaves it out."""
    help: str
    is_practice: bool = False
    """There is a simulated board, or the key does nothing."""
    is_useful: Callable[[State], bool] = _always
    """Whether the key means anything now, or is not there."""
    is_always_shown: bool = False
    """It has its place in the footer, however narrow the console is."""

    def is_bound(self, key: str) -> bool:
        """Return whether `key` is one of them."""
        return key in self.names.split()

    @property
    def shown_names(self) -> tuple[str, ...]:
        """All of them as people write them, the usual one first."""
        return tuple(shown_name(name) for name in self.names.split())

    @property
    def footer_name(self) -> str:
        """How the footer calls them."""
        first, last = self.shown_names[0], self.shown_names[-1]
        if first == "up":
            return "up/down"
        if first != last and (first + last).isdigit():
            return f"{first}-{last}"
        return first


@dataclass(frozen=True)
class View:
    """What a panel is drawn from."""

    state: State
    columns: int
    rows: int
    """The room there is."""
    beneath: "Mode"
    """The mode that the present one goes back to."""


Panel = Callable[[View], Rows]


def nothing(state: State, key: str) -> Reaction:
    """Do nothing."""
    return state, ()


def scrolled(state: State, key: str) -> Reaction:
    """Move what is larger than its room, where the key goes some way."""
    action = scroll if key in WAYS else nothing
    return action(state, key)


def unchanged(state: State) -> Reaction:
    """Return the state as it is."""
    return state, ()


def _not_taken(state: State, key: str) -> Reaction | None:
    return None


def _code_ignored(state: State, code: int) -> Reaction:
    return state, ()


def _press_ignored(state: State, event: PressHeard) -> Reaction:
    return state, ()


def _verdicts_ignored(state: State, event: Judged) -> Reaction:
    return state, ()


def _no_words(state: State) -> str:
    return ""


def _no_hint(state: State) -> Styled | None:
    return None


@dataclass(frozen=True)
class Mode:
    """What the session waits for."""

    name: str
    title: str
    """Shown where nothing else is to be said, and over the help."""
    keys: tuple[ModeKey, ...]
    other: KeyAction = scrolled
    """What a key does that is not among them: it moves what is larger than its room, or nothing."""
    takes_first: Callable[[State, str], Reaction | None] = _not_taken
    """What a key does before it is looked up among them; None where that is nothing."""

    # What it is

    kind: str | None = None
    """The kind of step that is answered in it."""
    is_waiting: bool = False
    """For the worker: a step is being sent, or an answer written down."""
    is_of_step: bool = False
    """The step in hand is sent again from here when the line is back."""
    has_step: bool = True
    """There is a step in hand; its title is shown."""

    # What comes from the worker

    on_begin: Callable[[State], Reaction] = unchanged
    """When the step has been sent and is waited for."""
    on_code: Callable[[State, int], Reaction] = _code_ignored
    """A byte has come from the board."""
    on_press: Callable[[State, PressHeard], Reaction] = _press_ignored
    """A key of the board was pressed, or should have been by now."""
    on_judged: Callable[[State, Judged], Reaction] = _verdicts_ignored
    """The verdicts have changed; is_known tells whether there were any before."""

    # What it shows

    panel: Panel | None = None
    """Takes the place of the screen."""
    text: Panel | None = None
    """The same, all rows of a text that is shown page by page."""
    is_panel_kept: bool = False
    """The panel is also shown while a step of this kind is made ready."""
    task: Panel | None = None
    """What a step of this kind asks for beside its question, above its screen or without one."""
    shows_screen: bool = False
    """The screen may have the console alone."""
    shows_question: bool = False
    """The step's question is shown above."""
    question: str = ""
    """Asked in place of the step's."""
    shows_marks: bool = False
    """The marks and the marking cursor are shown on the screen."""
    is_part: bool = False
    """The screen is that of a part of the step."""
    side: Panel | None = None
    """Stands beside a screen in place of the list of steps."""
    is_side_needed: bool = False
    """Where that has no room beside the screen, it stands below."""
    shows_prediction: bool = False
    """The wrong screen that the builder has moved to is shown first."""
    sent_words: Callable[[State], str] = _no_words
    """Shown in place of what the step sends, where there are any."""
    hint: Callable[[State], Styled | None] = _no_hint
    """Shown where nothing else is to be said; the title is where there is none."""
    typing_row: Callable[[State, int], Row] | None = None
    """The row in which a line is typed, of so many columns; what was shown before stays."""
    link_word: str = "ready"
    """How the line is."""
    help_more: str = ""
    """The last row of its help."""

    @property
    def is_typing(self) -> bool:
        """Whether a line is typed in it."""
        return self.typing_row is not None

    def find(self, key: str, state: State) -> ModeKey | None:
        """Return the ModeKey that `key` is bound to, or None."""
        return next((entry for entry in self.keys_for(state) if entry.is_bound(key)), None)

    def keys_for(self, state: State) -> tuple[ModeKey, ...]:
        """Return its keys that mean something now, those of a practice only in one."""
        of_place = [entry for entry in self.keys if state.is_practice or not entry.is_practice]
        return tuple(entry for entry in of_place if entry.is_useful(state))

    def footer(self, state: State) -> tuple[ModeKey, ...]:
        """Return the keys that the footer names, important ones first."""
        return tuple(entry for entry in self.keys_for(state) if entry.label)

    def help_lines(self, state: State) -> tuple[tuple[str, str], ...]:
        """Return ((keys, text), ...) for all keys."""
        entries = self.keys_for(state)
        return tuple((" ".join(entry.shown_names), entry.help) for entry in entries)
