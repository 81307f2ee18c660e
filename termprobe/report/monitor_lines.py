"""What a monitor shows of a line: a row for each burst, and a count at the end."""

from collections import Counter

from termprobe.line.bursts import CAME, SENT, Burst
from termprobe.notation import show
from termprobe.report.spans_in_words import span_in_words

ARROWS = {SENT: "-->", CAME: "<--"}
"""To the board, and from it."""
LEGEND = "seconds     gap  --> to the board, <-- from it"
LONG_GAP_S = 9999.0
FEW = 3
"""Of so few bytes no rate is told."""


class MonitorLines:
    """Makes the rows, and counts."""

    def __init__(self) -> None:
        self._ended_s = 0.0
        self._bytes: Counter[str] = Counter()
        self._errors: Counter[str] = Counter()

    def row(self, burst: Burst) -> str:
        """Return the row of `burst`: when, the gap before it, which way, bytes, error, rate."""
        gap_s = burst.at_s - self._ended_s
        gap = f"{gap_s:+7.3f}" if gap_s < LONG_GAP_S else "   long"
        parts = [f"{burst.at_s:9.3f} {gap}  {ARROWS[burst.way]}  {show(burst.data)}"]
        if burst.error:
            parts.append(f"[{burst.error}]")
        if len(burst.data) > FEW and burst.lasts_s > 0:
            rate = (len(burst.data) - 1) / burst.lasts_s
            parts.append(f"({rate:,.0f} a second)")
        return "  ".join(parts)

    def count(self, burst: Burst) -> None:
        """Take notice that `burst` is complete: its row will not be made again."""
        self._ended_s = burst.at_s + burst.lasts_s
        self._bytes[burst.way] += len(burst.data)
        if burst.error:
            self._errors[burst.error] += max(len(burst.data), 1)

    def end(self, seconds: float) -> str:
        """Return the count of all, over so many `seconds`."""
        text = (
            f"{self._bytes[SENT]:,} bytes to the board, {self._bytes[CAME]:,} from it, "
            f"in {span_in_words(seconds)}"
        )
        for error, count in sorted(self._errors.items()):
            text += f"; {count:,} with a {error} error"
        return text
