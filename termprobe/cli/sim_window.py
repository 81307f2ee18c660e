"""Where the screen of a served board is shown: live in this window, in a file, or nowhere."""

import os
import sys
from collections.abc import Callable

from termprobe.board.base import TubePicture
from termprobe.board.live_screen import LiveScreen
from termprobe.board.screen_file import ScreenFile
from termprobe.clock import SystemClock
from termprobe.errors import UsageError


class NoWindow:
    """Stands for a window where none is wanted: what is said goes to standard error."""

    def show(self, picture: TubePicture) -> None:
        """Show nothing."""

    def say(self, text: str) -> None:
        """Print `text`."""
        print(f"termprobe: {text}", file=sys.stderr, flush=True)

    def tick(self) -> None:
        """Do nothing."""

    def close(self) -> None:
        """Do nothing."""


def window_for(name: str, is_shown: bool) -> LiveScreen | NoWindow:
    """Return what shows the board in this window; raise UsageError where it is none."""
    if not is_shown:
        return NoWindow()
    if not sys.stdout.isatty():
        raise UsageError(
            "--show must have a window to draw on, but the standard output is none; "
            "--screen FILE keeps the rows in a file"
        )

    def write(text: str) -> None:
        sys.stdout.write(text)
        sys.stdout.flush()

    return LiveScreen(name, write, _window_size, SystemClock().now_s)


def _window_size() -> tuple[int, int]:
    """Return columns and rows of the window behind the standard output."""
    size = os.get_terminal_size(sys.stdout.fileno())
    return size.columns, size.lines


def shower(path: str | None, window: LiveScreen | NoWindow) -> Callable[[TubePicture], None]:
    """Return what to do with a screen that may have changed: show it, and write it to a file."""
    if path is None:
        return window.show
    file = ScreenFile(path)

    def show(picture: TubePicture) -> None:
        file.show(picture)
        window.show(picture)

    return show
