"""Does something again whenever a file is saved."""

import pathlib
from collections.abc import Callable, Sequence

from termprobe.clock import Clock

POLL_S = 0.25
"""The files are looked at so often."""

Stamp = tuple[int, int]
"""When a file was last written, in ns, and its size."""


def on_each_save(paths: Sequence[pathlib.Path], act: Callable[[], None], clock: Clock) -> None:
    """Call `act` at once, and again each time that one of the files at `paths` has changed.

    While one of them is missing, as it may be for a moment when it is saved, nothing is done. It
    goes on until an interrupt passes through.
    """
    seen: list[Stamp] | None = None
    while True:
        now = _stamps(paths)
        if now is not None and now != seen:
            seen = now
            act()
        clock.sleep_until(clock.now_s() + POLL_S)


def _stamps(paths: Sequence[pathlib.Path]) -> list[Stamp] | None:
    try:
        return [_stamp(path) for path in paths]
    except OSError:
        return None


def _stamp(path: pathlib.Path) -> Stamp:
    found = path.stat()
    return found.st_mtime_ns, found.st_size
