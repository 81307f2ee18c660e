"""The keys of the console one by one, as bytes, without a full screen."""

import contextlib
from collections.abc import Iterator

from prompt_toolkit.input import create_input
from prompt_toolkit.input.base import Input

LEAVE = b"\x1d"
"""Ctrl-], which few boards have a use for."""


class RawKeys:
    """Reads what is typed; nothing waits for a key."""

    def __init__(self, console: Input) -> None:
        self._console = console
        self._is_waiting = False

    def read(self) -> bytes:
        """Return the bytes of the keys typed since the last call; empty where none was.

        A key that may be the beginning of a longer one, as Escape, is given at the next call.
        """
        typed = self._console.read_keys()
        if not typed and self._is_waiting:
            typed = self._console.flush_keys()
        self._is_waiting = not typed and not self._is_waiting
        return "".join(key.data for key in typed).encode("latin-1", "ignore")


@contextlib.contextmanager
def raw_keys() -> Iterator[RawKeys]:
    """Yield the keys of the console behind standard input, which types nothing itself meanwhile."""
    console = create_input()
    with console.raw_mode():
        yield RawKeys(console)
