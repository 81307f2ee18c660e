"""One line of a console that changes: each text is written over the one before."""

from typing import TextIO


class ChangingLine:
    """Writes to `stream`, a console; it stands where the line begins."""

    def __init__(self, stream: TextIO) -> None:
        self._stream = stream
        self._shown = ""

    def show(self, text: str) -> None:
        """Write `text` over what is shown."""
        self._stream.write("\r" + text.ljust(len(self._shown)))
        self._stream.flush()
        self._shown = text

    def keep(self, text: str) -> None:
        """Write `text` over what is shown, and begin another line below it."""
        self.show(text)
        self._stream.write("\r\n")
        self._stream.flush()
        self._shown = ""

    def clear(self) -> None:
        """Take away what is shown, where anything is."""
        if self._shown:
            self.show("")
            self._stream.write("\r")
            self._stream.flush()
