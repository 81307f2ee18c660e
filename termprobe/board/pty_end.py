"""A pseudo-terminal behind a symbolic link (POSIX alone)."""

import contextlib
import os
import pty
import tty
from collections.abc import Sequence

from termprobe.board.endpoint import CLIENT_BYTES
from termprobe.errors import UsageError
from termprobe.link.readiness import Source, is_hung_up


class PtyEndpoint:
    """A pseudo-terminal, raw, that `path` points to; an Endpoint.

    Raise UsageError where something else stands there. The near end is not kept open here: a client
    that opens it exclusively must be able to come back, and bytes sent while nobody listens must be
    lost, as on a cable.
    """

    def __init__(self, path: str) -> None:
        self.name = path
        self._own, near = pty.openpty()
        tty.setraw(near)
        self._target = os.ttyname(near)
        os.close(near)
        os.set_blocking(self._own, False)
        try:
            _point(path, self._target)
        except UsageError:
            os.close(self._own)
            raise

    def sources(self) -> list[Source]:
        """Return what to wait for: nothing while no client has opened the near end."""
        if is_hung_up(self._own):
            return []
        return [self._own]

    def receive(self, ready: Sequence[Source]) -> bytes:
        if self._own not in ready:
            return b""
        with contextlib.suppress(OSError):  # the client has gone
            return os.read(self._own, CLIENT_BYTES)
        return b""

    def send(self, data: bytes) -> None:
        if self.sources():
            with contextlib.suppress(OSError):
                os.write(self._own, data)

    def close(self) -> None:
        """Take the symbolic link away, if it is still ours, and hang up."""
        with contextlib.suppress(OSError):
            if os.readlink(self.name) == self._target:
                os.unlink(self.name)
        os.close(self._own)


def _point(path: str, target: str) -> None:
    """Make `path` a symbolic link to `target` at once, in place of one that stood there.

    Raise UsageError where it cannot be.
    """
    if os.path.lexists(path) and not os.path.islink(path):
        raise UsageError(
            f"{path}: must be free, or a symbolic link from an earlier time, and it is neither; "
            "name another path"
        )
    passing = f"{path}.{os.getpid()}"
    try:
        os.symlink(target, passing)
        os.replace(passing, path)
    except OSError as error:
        with contextlib.suppress(OSError):
            os.unlink(passing)
        raise UsageError(
            f"{path}: must be a place for a symbolic link, but it is not ({error.strerror})"
        ) from None
