"""The simulated board of a practice, as far as the session has to do with it."""

from termprobe.board.base import SimulatedBoard
from termprobe.plan.model import KeyPress
from termprobe.terminal.screen import Screen


class PracticeHands:
    """Hands and eyes at a simulated board; at a real one, None, they do nothing."""

    def __init__(self, board: SimulatedBoard | None) -> None:
        self._board = board
        self._seen: Screen | None = None

    def look(self) -> Screen | None:
        """Return what the board shows, or None where that is what it showed before."""
        if self._board is None:
            return None
        shown = self._board.screen()
        misdrawn = shown.misdrawn or ()
        screen = Screen(shown.rows, shown.cursor, bells=shown.bells, misdrawn=misdrawn)
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

    def press(self, step: KeyPress) -> None:
        """Press what the press `step` asks for."""
        if self._board is None:
            return
        own = step.press
        if own.held:
            self._board.chord([*own.held, own.key])
        else:
            self._board.press(own.key, frozenset(own.modifiers))
