"""What a soak shows while it goes on: on a console a line that changes, elsewhere one a tenth."""

import time
from typing import TextIO

from termprobe.cli.changing_line import ChangingLine
from termprobe.line.soak import Far, SoakLength
from termprobe.report.spans_in_words import span_in_words

REFRESH_S = 0.5
TENTHS = 10


class SoakProgress:
    """Writes to `stream` how much of what is `wanted` is done."""

    def __init__(self, wanted: SoakLength, stream: TextIO) -> None:
        self._wanted, self._stream = wanted, stream
        self._is_console = stream.isatty()
        self._line, self._shown_s = ChangingLine(stream), 0.0
        self._tenth = 0

    def __call__(self, far: Far) -> None:
        """Show how far it is, where enough has passed since it was shown last."""
        if self._is_console:
            now_s = time.monotonic()
            if now_s - self._shown_s >= REFRESH_S:
                self._shown_s = now_s
                self._line.show(self.line(far))
            return
        tenth = int(self._wanted.share(far) * TENTHS)
        if tenth > self._tenth:
            self._tenth = tenth
            self._stream.write(self.line(far) + "\n")
            self._stream.flush()

    def line(self, far: Far) -> str:
        """Return how far it is in one line."""
        share, tally = self._wanted.share(far), far.tally
        parts = [f"{share:4.0%}", f"{tally.sent:,} sent", f"{tally.wrong:,} errors"]
        if 0 < share < 1:
            parts.append(f"{span_in_words(far.seconds * (1 - share) / share)} left")
        return "  ".join(parts)

    def end(self) -> None:
        """Clear the line that changes."""
        self._line.clear()
