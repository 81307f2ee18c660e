"""The line that the worker owns: opened anew where it was lost, in another format for a while."""

import threading
from collections.abc import Callable

from termprobe.errors import LinkError, LinkLostError
from termprobe.link.base import LineFormat, Link
from termprobe.session.stoppable_link import StoppableLink

RETRY_S = 0.5
"""How often a lost line is looked for."""


class KeptLine:
    """A link that can be broken off by `stop`, and opened anew by `open_line(format)`."""

    def __init__(
        self, link: Link, open_line: Callable[[LineFormat], Link], stop: threading.Event
    ) -> None:
        self.format: LineFormat = link.format
        """What the line is opened with but for a while."""
        self.link = StoppableLink(link, stop)
        self.is_lost = False
        self.is_troubled = False
        """It cannot be used as it is, but is not gone.

        Nothing is to be read before the builder has tried again.
        """
        self._open_line, self._stop = open_line, stop
        self._retry_at_s = 0.0

    def lose(self, error: LinkError, now_s: float) -> None:
        """Note that the line is lost, or cannot be used, as `error` says."""
        self.is_lost = isinstance(error, LinkLostError)
        self.is_troubled = not self.is_lost
        self._retry_at_s = now_s + RETRY_S

    def is_retry_due(self, now_s: float) -> bool:
        """Return whether a lost line is to be looked for now; then not again for a while."""
        is_due = now_s >= self._retry_at_s
        if is_due:
            self._retry_at_s = now_s + RETRY_S
        return is_due

    def reopen(self) -> None:
        """Open the line anew; raise LinkError where it is still gone."""
        try:
            self.switch_to(self.format)
        except LinkError:
            self.is_lost = True
            raise
        self.is_lost = self.is_troubled = False

    def switch_to(self, line: LineFormat) -> None:
        """Open the line in another format; raise LinkError."""
        self.link.close()
        self.link = StoppableLink(self._open_line(line), self._stop)
