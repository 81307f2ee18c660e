"""The screen of a board as a file, for programs that look at it.

Behind the rows stand a form feed and the cursor, as a dump command may tell it.
"""

import os

from termprobe.board.base import TubePicture
from termprobe.errors import UsageError


class ScreenFile:
    """Writes the rows of a screen and its cursor into the file at `path` when they have changed.

    They are written whole or not at all.
    """

    def __init__(self, path: str) -> None:
        self._path, self._written = path, ""

    def show(self, screen: TubePicture) -> None:
        """Write `screen`, UTF-8, one line for each row; raise UsageError where it cannot be."""
        rows = "".join(row + "\n" for row in screen.rows)
        row, column = screen.cursor
        text = f"{rows}\fcursor: {row},{column}\n"
        if text == self._written:
            return
        passing = f"{self._path}.{os.getpid()}"
        try:
            with open(passing, "w", encoding="utf-8") as file:
                file.write(text)
            os.replace(passing, self._path)
        except OSError as error:
            raise UsageError(
                f"{self._path}: must be a file that can be written, "
                f"but it is not ({error.strerror})"
            ) from None
        self._written = text
