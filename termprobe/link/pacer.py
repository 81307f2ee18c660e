"""Sends at the line's own speed by absolute deadlines, with pauses.

It stops while the board holds the line.
"""

import contextlib
import sys
from collections.abc import Iterator
from dataclasses import dataclass

from termprobe.clock import Clock
from termprobe.errors import LinkError, LinkSettingsError
from termprobe.link.base import Link, Received

CHUNK = 8
"""Characters handed over at a time."""
AHEAD = 16
"""Characters that may be on their way.

A computer that is late by less than half of them costs the line nothing.
"""
CHUNK_HELD, AHEAD_HELD = 2, 4
"""The same with a handshake: little may still come after the board has said stop."""
MAY_BE_SHORTER = 0.1
"""Share of a pause by which it may come out shorter, so that small delays do not add up."""
HOLD_LIMIT_S = 30.0
POLL_S = 0.002
SWITCH_INTERVAL_S = 0.0005
"""How soon another thread of this program must let the sender run.

With the usual 5 ms characters come late.
"""
XON, XOFF = 0x11, 0x13  # DC1 and DC3 of RFC 20; common practice


@dataclass(frozen=True)
class Pacing:
    """How the sending really went."""

    characters: int = 0
    late: int = 0
    """Characters that came later than the line, or the demanded pause, could have taken them."""
    worst_late_s: float = 0.0


class Pacer:
    """Sends over one link.

    `gap_s` is the pause after each character; `handshake` is the profile's word: none, xon-xoff
    or rts-cts. With xon-xoff the pacer must see what arrives, so whoever uses it reads by its
    read(), not by the link's.
    """

    def __init__(
        self,
        link: Link,
        clock: Clock,
        gap_s: float = 0.0,
        handshake: str = "none",
        hold_limit_s: float = HOLD_LIMIT_S,
    ) -> None:
        self._link, self._clock = link, clock
        self._demanded_gap_s = gap_s
        self._pause_s = 0.0
        self._handshake = handshake
        self.set_pace(1.0)
        self._hold_limit_s = hold_limit_s
        self._is_held = False
        self._arrived: list[Received] = []
        self._free_s = clock.now_s()
        self._characters = self._late = 0
        self._worst_late_s = 0.0

    def set_pace(self, times: float) -> None:
        """Make each character and its pause take `times` (1 or more) as long from now on."""
        character_s = self._link.format.character_s
        self._gap_s = self._demanded_gap_s * times + character_s * (times - 1)
        self._character_s = character_s + self._gap_s
        if self._gap_s:
            self._chunk, self._ahead = 1, 1
        elif self._handshake == "none":
            self._chunk, self._ahead = CHUNK, AHEAD
        else:
            self._chunk, self._ahead = CHUNK_HELD, AHEAD_HELD

    @property
    def statistics(self) -> Pacing:
        """All sends so far."""
        return Pacing(self._characters, self._late, self._worst_late_s)

    def send(self, data: bytes) -> None:
        """Hand `data` to the line at its pace; return when all is handed over.

        Up to 16 characters may then still be leaving. Raise LinkError where the board holds the
        line for longer than the limit.
        """
        with _prompt_switching():
            self._free_s = self._kept_deadline(self._pause_s)
            for start in range(0, len(data), self._chunk):
                self._hand_over(data[start : start + self._chunk], is_first=start == 0)

    def _hand_over(self, chunk: bytes, is_first: bool) -> None:
        self._clock.sleep_until(self._free_s - (self._ahead - len(chunk)) * self._character_s)
        self._wait_while_held()
        late_s = self._clock.now_s() - self._free_s
        self._link.write(chunk)
        if late_s > 0 and not is_first:
            self._count_late(late_s, len(chunk))
        self._characters += len(chunk)
        self._free_s += len(chunk) * self._character_s

    def _count_late(self, late_s: float, count: int) -> None:
        """Keep to the deadlines until a pause would come out too short.

        Then the time starts anew.
        """
        if late_s > self._gap_s * MAY_BE_SHORTER:
            self._late += count
            self._worst_late_s = max(self._worst_late_s, late_s)
            self._free_s += late_s

    def settle(self, seconds: float) -> None:
        """Return when the last bit of everything sent has left and `seconds` more have passed."""
        self._clock.sleep_until(self._free_s)
        if not self._link.drain(self._hold_limit_s):
            raise LinkError(
                f"{self._link.name}: the line must take what was sent, but it has not for "
                f"{self._hold_limit_s:g} s; see that the board does not hold it"
            )
        self._free_s = self._kept_deadline(seconds) + seconds
        self._pause_s = seconds
        self._clock.sleep_until(self._free_s)

    def _kept_deadline(self, pause_s: float) -> float:
        """Return the deadline that was to be met.

        It is now where keeping to that would shorten a pause by more than a tenth.
        """
        now_s = self._clock.now_s()
        if now_s - self._free_s <= pause_s * MAY_BE_SHORTER:
            return self._free_s
        return now_s

    def read(self, wait_s: float) -> tuple[Received, ...]:
        """Return what has arrived, as Link.read does, with what arrived while sending before it."""
        if self._arrived:
            wait_s = 0.0
        fresh = self._watched(wait_s)
        kept, self._arrived = tuple(self._arrived), []
        return kept + fresh

    def _watched(self, wait_s: float) -> tuple[Received, ...]:
        arrived = self._link.read(wait_s)
        if self._handshake == "xon-xoff":
            for code in b"".join(received.data for received in arrived):
                if code in (XON, XOFF):
                    self._is_held = code == XOFF
        return arrived

    def _board_holds(self) -> bool:
        if self._handshake == "xon-xoff":
            self._arrived += self._watched(0.0)
            return self._is_held
        lines = self._link.lines()
        if lines is None:
            raise LinkSettingsError(
                f"{self._link.name}: handshake rts-cts must have a port with control lines, "
                "and this has none; use another port or another handshake"
            )
        return not lines["cts"]

    def _wait_while_held(self) -> None:
        if self._handshake == "none" or not self._board_holds():
            return
        start_s = self._clock.now_s()
        while self._board_holds():
            if self._clock.now_s() - start_s >= self._hold_limit_s:
                raise LinkError(
                    f"{self._link.name}: the board must let the line go on, "
                    f"but it has held it by {self._handshake} for {self._hold_limit_s:g} s; "
                    "see whether it is stopped, or set handshake none"
                )
            self._clock.sleep_until(self._clock.now_s() + POLL_S)
        self._free_s = max(self._free_s, self._clock.now_s())


@contextlib.contextmanager
def _prompt_switching() -> Iterator[None]:
    before_s = sys.getswitchinterval()
    sys.setswitchinterval(min(before_s, SWITCH_INTERVAL_S))
    try:
        yield
    finally:
        sys.setswitchinterval(before_s)
