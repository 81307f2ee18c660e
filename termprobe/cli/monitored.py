"""What has gone over a monitored line: shown on a stream row by row, and kept in a log."""

from typing import TextIO

from termprobe.cli.changing_line import ChangingLine
from termprobe.cli.console import columns
from termprobe.clock import Clock
from termprobe.line.bursts import Burst, Gatherer
from termprobe.line.log import log_line
from termprobe.link.base import LineFormat
from termprobe.report.monitor_lines import MonitorLines

GAP_S = 0.1
CHARACTERS_OF_A_GAP = 4
"""A gap is so many characters long, or GAP_S where that is longer."""


class Monitored:
    """Shows bursts on `stream`; on a console the one under way grows in its row."""

    def __init__(
        self, format: LineFormat, clock: Clock, stream: TextIO, log: TextIO | None
    ) -> None:
        self._clock, self._stream, self._log = clock, stream, log
        self._begun_s = clock.now_s()
        self._bursts = Gatherer(max(GAP_S, CHARACTERS_OF_A_GAP * format.character_s))
        self._lines = MonitorLines()
        self._is_console = stream.isatty()
        self._line = ChangingLine(stream)

    @property
    def seconds(self) -> float:
        """Since it was begun."""
        return self._clock.now_s() - self._begun_s

    def take(self, way: str, data: bytes, error: str = "", at_s: float | None = None) -> None:
        """Take notice of bytes that went one way, now or `at_s`."""
        moment_s = self.seconds if at_s is None else max(at_s - self._begun_s, 0.0)
        self._complete(self._bursts.take(moment_s, way, data, error))
        if self._is_console and self._bursts.under_way:
            self._line.show(self._fitted(self._lines.row(self._bursts.under_way)))

    def quiet(self) -> None:
        """Take notice that nothing comes just now."""
        self._complete(self._bursts.quiet(self.seconds))

    def end(self) -> None:
        """Show the burst under way as complete, and the count of all."""
        self._complete(self._bursts.end())
        print(self._lines.end(self.seconds), file=self._stream, flush=True)

    def _complete(self, bursts: list[Burst]) -> None:
        for burst in bursts:
            row = self._lines.row(burst)
            self._lines.count(burst)
            if self._is_console:
                self._line.keep(self._fitted(row))
            else:
                self._stream.write(row + "\n")
                self._stream.flush()
            if self._log:
                self._log.write(log_line(burst) + "\n")
                self._log.flush()

    def _fitted(self, row: str) -> str:
        """Return as much of `row` as the console is wide."""
        room = columns(self._stream)
        return row[: room - 1] if room else row
