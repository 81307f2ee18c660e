"""What goes over a line both ways, gathered into bursts: bytes of one way without a gap in them."""

from typing import NamedTuple

SENT, CAME = "sent", "came"
"""The way of bytes: to the board, and from it."""
LONGEST = 32
"""Bytes of one burst; what follows is another one."""


class Burst(NamedTuple):
    """Bytes that followed one another."""

    at_s: float
    """When the first came or left, from the beginning."""
    way: str
    data: bytes
    error: str = ""
    """parity, framing, overrun, break, where the port reports one."""
    lasts_s: float = 0.0
    """From the first to the last."""


class Gatherer:
    """Gathers pieces into bursts; those of `gap_s` without a byte between them are two."""

    def __init__(self, gap_s: float) -> None:
        self._gap_s = gap_s
        self.under_way: Burst | None = None
        """The one that more may still come to."""

    def take(self, at_s: float, way: str, data: bytes, error: str = "") -> list[Burst]:
        """Take a piece; return the bursts that are complete by it."""
        complete = self.quiet(at_s)
        before = self.under_way
        if before and (way, error) != (before.way, before.error):
            complete.append(before)
            before = None
        held = before.data + data if before else data
        begins_s = before.at_s if before else at_s
        while len(held) > LONGEST:
            complete.append(Burst(begins_s, way, held[:LONGEST], error, at_s - begins_s))
            held, begins_s = held[LONGEST:], at_s
        self.under_way = Burst(begins_s, way, held, error, at_s - begins_s)
        return complete

    def quiet(self, now_s: float) -> list[Burst]:
        """Return the burst under way where by now nothing more belongs to it."""
        held = self.under_way
        if held is None or now_s - held.at_s - held.lasts_s < self._gap_s:
            return []
        return self.end()

    def end(self) -> list[Burst]:
        """Return the burst under way, where there is one: nothing more comes."""
        held, self.under_way = self.under_way, None
        return [held] if held else []
