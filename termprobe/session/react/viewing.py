"""What of the screens is in sight.

Pure.
"""

from dataclasses import replace

from termprobe.session.state import Reaction, State

FAR = 9999
WAYS = {
    "up": (-1, 0),
    "down": (1, 0),
    "left": (0, -1),
    "right": (0, 1),
    "pageup": (-FAR, 0),
    "pagedown": (FAR, 0),
    "home": (0, -FAR),
    "end": (0, FAR),
}
"""Rows down and columns to the right that a key goes."""
SCROLL_COLUMNS = 8


def screen_alone(state: State, key: str) -> Reaction:
    """Give the whole console to the screen, or take it back."""
    return replace(state, is_alone=not state.is_alone), ()


def turn(state: State, key: str) -> Reaction:
    """Turn to the next of the screens: the expected one, as it is seen, and the difference."""
    return replace(state, turns=state.turns + 1), ()


def scroll(state: State, key: str) -> Reaction:
    """Move a screen or a panel that is larger than its room; what draws keeps it within bounds."""
    row, column = state.shown_from
    down, right = WAYS[key]
    moved = (max(row + down, 0), max(column + SCROLL_COLUMNS * right, 0))
    return replace(state, scroll=moved, shown_from=moved), ()


def is_more(state: State) -> bool:
    """Return whether there is a page behind the one that is shown."""
    return state.page < state.pages - 1


def is_less(state: State) -> bool:
    """Return whether there is a page before the one that is shown."""
    return state.page > 0


def page_on(state: State, key: str) -> Reaction:
    """Turn to the next page."""
    return replace(state, page=state.page + 1), ()


def page_back(state: State, key: str) -> Reaction:
    """Turn to the page before."""
    return replace(state, page=state.page - 1), ()
