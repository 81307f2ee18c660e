"""The simulated board of a practice, as far as the session has to do with it."""

from collections.abc import Sequence
from typing import Protocol

from termprobe.board.board import Screen as BoardScreen
from termprobe.plan.model import Step
from termprobe.terminal.screen import Screen


class PracticeBoard(Protocol):
    """A simulated board, or the keyboard of one."""

    def screen(self) -> BoardScreen:
        """Return what a person in front of it sees."""

    def set_option(self, name: str, position: str, /) -> None:
        """Move a switch."""

    def type(self, text: str, /) -> None:
        """Press the keys whose codes spell `text`; raise UsageError where no key sends one."""

    def press(self, key_name: str, modifiers: frozenset[str], /) -> None:
        """Press a key with modifiers held, and let go."""

    def chord(self, key_names: Sequence[str], /) -> None:
        """Press keys one after another, holding them until all are down."""


class PracticeHands:
    """Hands and eyes at a simulated board; at a real one, None, they do nothing."""

    def __init__(self, board: PracticeBoard | None) -> None:
        self._board = board
        self._seen: Screen | None = None

    def look(self) -> Screen | None:
        """Return what the board shows, or None where that is what it showed before."""
        if self._board is None:
            return None
        shown = self._board.screen()
        screen = Screen(shown.rows, shown.cursor, bells=shown.bells)
        if screen == self._seen:
            return None
        self._seen = screen
        return screen

    def set_option(self, option: str, position: str) -> None:
        """Move a switch."""
        if self._board is not None:
            self._board.set_option(option, position)

    def type(self, text: str) -> None:
        """Press the keys whose codes spell `text`; raise UsageError where no key sends one."""
        if self._board is not None:
            self._board.type(text)

    def press(self, step: Step) -> None:
        """Press what the press `step` asks for."""
        if self._board is None:
            return
        key = step.key or ""
        if step.held:
            self._board.chord([*step.held, key])
        else:
            self._board.press(key, frozenset(step.modifiers))
