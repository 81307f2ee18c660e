"""Sends a text over a line that brings it back, and counts what went wrong."""

from collections.abc import Callable
from dataclasses import dataclass, field
from typing import NamedTuple

from termprobe.clock import Clock
from termprobe.errors import LinkError
from termprobe.line.bound import upper_bound
from termprobe.line.compare import Comparer, Tally
from termprobe.line.stream import BLOCK, Stream
from termprobe.link.base import Link, Received
from termprobe.link.pacer import Pacer

QUIET_S = 2.0
"""What has not come so long after the last character is lost."""
WAIT_S = 0.1
MOST_AWAITED = 4096
"""Characters that may be on their way; beyond, sending waits for some to come."""
KEEP_S = 30.0
"""How often it is kept how far it is."""
PASS, FAIL, INCOMPLETE = "pass", "fail", "incomplete"


class SoakLength(NamedTuple):
    """How long a soak goes on: until whichever is given is reached."""

    characters: int | None = None
    seconds: float | None = None

    def is_reached(self, far: "Far") -> bool:
        """Return whether a soak that is so `far` has had enough."""
        enough = self.characters is not None and far.tally.sent >= self.characters
        return enough or (self.seconds is not None and far.seconds >= self.seconds)

    def share(self, far: "Far") -> float:
        """Return which share of it, 0 to 1, is done."""
        shares = [0.0]
        if self.characters:
            shares.append(far.tally.sent / self.characters)
        if self.seconds:
            shares.append(far.seconds / self.seconds)
        return min(max(shares), 1.0)


@dataclass
class Far:
    """How far a soak is."""

    block: int = 0
    """The first block that has not been sent."""
    tally: Tally = field(default_factory=Tally)
    seconds: float = 0.0

    @property
    def bound(self) -> float:
        """The error rate, 0 to 1, that the line exceeds with a chance of 5 % at most."""
        return upper_bound(self.tally.wrong, self.tally.sent)

    def verdict(self, wanted: SoakLength) -> str:
        """Return fail where anything went wrong, pass where all that is `wanted` went right."""
        if self.tally.wrong:
            return FAIL
        return PASS if wanted.is_reached(self) else INCOMPLETE


SoakListener = Callable[[Far], None]


class Telling:
    """Tells how far a soak is: `told` each time, `keep` now and then.

    The time that it has taken goes on from `far`.
    """

    def __init__(self, clock: Clock, far: Far, keep: SoakListener, told: SoakListener) -> None:
        self._clock, self._far, self._keep, self._told = clock, far, keep, told
        self._kept_s = clock.now_s()
        self._begun_s = self._kept_s - far.seconds

    def leave_out(self, seconds: float) -> None:
        """Let so many seconds not count."""
        self._begun_s += seconds

    def count_time(self) -> None:
        """Note in `far` how long it has taken so far."""
        self._far.seconds = self._clock.now_s() - self._begun_s

    def tell(self, judged: Callable[[], Far]) -> None:
        """Tell how far it is; what is kept is what `judged` returns."""
        self.count_time()
        self._told(self._far)
        now_s = self._clock.now_s()
        if now_s - self._kept_s >= KEEP_S:
            self._kept_s = now_s
            self._keep(judged())


class Soak:
    """A soak of `link` by the text `stream`, from `far` on.

    `keep` is handed how far it is from time to time, and at the end however that comes; `told` is
    handed the same much more often, for whoever shows it.
    """

    def __init__(
        self,
        link: Link,
        clock: Clock,
        stream: Stream,
        far: Far,
        keep: SoakListener,
        told: SoakListener,
        handshake: str = "none",
    ) -> None:
        self.far = far
        self._link, self._clock, self._stream = link, clock, stream
        self._keep, self._telling = keep, Telling(clock, far, keep, told)
        self._pacer = Pacer(link, clock, handshake=handshake)
        self._comparer = Comparer(far.tally)
        self._came_s = clock.now_s()
        self._has_come = far.tally.received > 0

    def carry_out(self, wanted: SoakLength) -> None:
        """Send until `wanted` is reached.

        Raise LinkError where the line cannot be used, or brings nothing back at all. Where it is
        broken off, by that or an interrupt, nothing is said of characters that were on their way.
        """
        self._pacer.read(0.0)  # What came before the first character is not of this soak.
        try:
            while not wanted.is_reached(self.far):
                self._send(wanted)
            self._wait_for_the_rest()
        finally:
            self.far.tally.sent -= self._comparer.awaited
            self._telling.count_time()
            self._keep(self.far)

    def _send(self, wanted: SoakLength) -> None:
        block = self._stream.block(self.far.block)
        if wanted.characters is not None:
            block = block[: wanted.characters - self.far.tally.sent]
        self.far.block += 1
        self._pacer.send(block)
        self._comparer.sent(block)
        self._listen(0.0)
        while self._comparer.awaited > MOST_AWAITED and not self._is_quiet():
            self._listen(WAIT_S)
        if self._is_quiet():
            self._give_up()
        self._telling.tell(self._judged)

    def _listen(self, wait_s: float) -> None:
        for received in self._pacer.read(wait_s):
            self._take(received)

    def _take(self, received: Received) -> None:
        self._came_s, self._has_come = self._clock.now_s(), True
        if received.error:
            self.far.tally.errors[received.error] += max(len(received.data), 1)
        self._comparer.came(received.data)

    def _is_quiet(self) -> bool:
        """Return whether something has been on its way for too long to come still."""
        on_its_way_s = BLOCK * self._link.format.character_s
        return self._clock.now_s() - self._came_s > QUIET_S + on_its_way_s

    def _give_up(self) -> None:
        """Take what is on its way for lost; raise LinkError where nothing has ever come."""
        if not self._has_come:
            raise LinkError(
                f"{self._link.name}: what is sent must come back, but nothing has; put a loopback "
                "plug on the cable (transmitted to received data, pins 2 and 3 of either "
                "connector), or see whether the cable is in"
            )
        self._comparer.end()
        self._came_s = self._clock.now_s()

    def _judged(self) -> Far:
        """Return how far it is, without the characters of which nothing is known yet."""
        tally = self.far.tally
        judged = Tally(
            tally.sent - self._comparer.awaited, tally.received, tally.errors, tally.bits
        )
        return Far(self.far.block, judged, self.far.seconds)

    def _wait_for_the_rest(self) -> None:
        """Wait for what is on its way, and judge all."""
        while self._comparer.awaited and not self._is_quiet():
            self._listen(WAIT_S)
        if self._comparer.awaited:
            self._give_up()
        self._comparer.end()
