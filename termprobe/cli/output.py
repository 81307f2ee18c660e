"""What a command prints: into a file of the user's choice, or on standard output."""

import contextlib
import sys
from collections.abc import Iterator
from typing import TextIO

from termprobe.errors import FileError


@contextlib.contextmanager
def output(path: str | None) -> Iterator[TextIO]:
    """Yield what is to be written to: the file at `path`, or standard output.

    Raises FileError where that file cannot be written.
    """
    if path is None:
        yield sys.stdout
        return
    try:
        with open(path, "w", encoding="utf-8") as file:
            yield file
    except OSError as error:
        raise FileError(
            [f"{path}: must be a file that can be written ({error.strerror}); try another -o FILE"]
        ) from None
