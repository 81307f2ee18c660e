"""What became of the characters that were sent, by those that came back, as they come.

Both sides are held only as far as they have not been matched, so days of characters take no more
room than seconds. Where the two part, the smallest difference is taken after which they agree
again: characters changed, lost, or come in addition.
"""

from collections import Counter
from dataclasses import dataclass, field
from typing import NamedTuple

from termprobe.line.stream import BLOCK, TAG, TAG_LENGTH

LOST, DOUBLED, EXTRA, CHANGED = "lost", "doubled", "extra", "changed"
AGREE = 12
"""So many characters must agree behind a difference for it to be taken: more than a tag has."""
FARTHEST = 2 * BLOCK
"""Characters of one difference; a longer one is told by the tag of the next block that comes."""
_WANTED = FARTHEST + AGREE
"""Characters that must stand on both sides from where they part before it is judged."""
_FLOOD = 16 * _WANTED
"""Where so many have come it is judged without waiting for more to be sent."""


@dataclass
class Tally:
    """What was counted so far."""

    sent: int = 0
    received: int = 0
    errors: Counter[str] = field(default_factory=Counter)
    """Kind -> how many characters: lost, doubled, extra, changed, and what the port reported."""
    bits: Counter[int] = field(default_factory=Counter)
    """Data bit of changed characters -> how often it came other than it was sent."""

    @property
    def wrong(self) -> int:
        """How many errors of all kinds."""
        return sum(self.errors.values())


class _Difference(NamedTuple):
    """So many characters that were sent, against so many that came."""

    sent: int
    came: int


class Comparer:
    """Compares what is sent with what comes back, and counts in its `tally`."""

    def __init__(self, tally: Tally | None = None) -> None:
        self.tally = tally or Tally()
        self._sent, self._came = bytearray(), bytearray()
        self._last = b""

    @property
    def awaited(self) -> int:
        """How many characters were sent of which it is not known what became of them."""
        return len(self._sent)

    def sent(self, data: bytes) -> None:
        """Take notice of characters that are on their way."""
        self.tally.sent += len(data)
        self._sent += data

    def came(self, data: bytes) -> None:
        """Take notice of characters that have come; judge as far as that can be done by now."""
        self.tally.received += len(data)
        self._came += data
        self._judge(is_all=False)

    def end(self) -> None:
        """Judge the rest: what has not come by now is lost."""
        self._judge(is_all=True)
        self._count(LOST, len(self._sent))
        self._count(EXTRA, len(self._came))
        self._sent, self._came = bytearray(), bytearray()

    def _judge(self, is_all: bool) -> None:
        self._take_agreeing()
        while self._sent and self._came and (is_all or self._is_enough()):
            self._take(self._difference())
            self._take_agreeing()
        if len(self._came) > _FLOOD:
            self._take(_Difference(0, len(self._came) - _FLOOD))

    def _is_enough(self) -> bool:
        """Return whether what stands on both sides tells what happened where they part."""
        came = len(self._came)
        return came >= _FLOOD or min(came, len(self._sent)) >= _WANTED

    def _take_agreeing(self) -> None:
        count = _agreeing(self._sent, self._came)
        if count:
            self._last = bytes(self._came[count - 1 : count])
            del self._sent[:count], self._came[:count]

    def _difference(self) -> _Difference:
        """Return the smallest difference behind which both sides agree."""
        for size in range(1, FARTHEST + 1):
            for difference in (
                _Difference(size, size),
                _Difference(size, 0),
                _Difference(0, size),
            ):
                if self._agree_behind(difference):
                    return difference
        return self._to_next_tag()

    def _agree_behind(self, difference: _Difference) -> bool:
        sent = self._sent[difference.sent : difference.sent + AGREE]
        came = self._came[difference.came : difference.came + AGREE]
        shorter = min(len(sent), len(came))
        at_the_end = difference.sent + shorter >= len(self._sent)
        if shorter < AGREE and not at_the_end:
            return False
        return sent[:shorter] == came[:shorter]

    def _to_next_tag(self) -> _Difference:
        """Return what differs up to the first tag that came and was sent; all where none did."""
        for tag in TAG.finditer(self._came):
            place = self._sent.find(tag.group())
            if place >= 0 and (place, tag.start()) != (0, 0):
                agreeing = _agreeing(self._sent[:place][::-1], self._came[: tag.start()][::-1])
                return _Difference(place - agreeing, tag.start() - agreeing)
        kept = TAG_LENGTH - 1
        return _Difference(0, max(len(self._came) - kept, 1))

    def _take(self, difference: _Difference) -> None:
        """Count `difference`, and drop it from both sides."""
        sent, came = self._sent[: difference.sent], self._came[: difference.came]
        del self._sent[: difference.sent], self._came[: difference.came]
        for one, other in zip(sent, came, strict=False):
            self._count_changed(one ^ other)
        self._count(LOST, len(sent) - len(came))
        is_doubled = len(came) == 1 and not sent and bytes(came) == self._last
        self._count(DOUBLED if is_doubled else EXTRA, len(came) - len(sent))
        if came:
            self._last = bytes(came[-1:])

    def _count_changed(self, bits: int) -> None:
        if not bits:
            return
        self.tally.errors[CHANGED] += 1
        self.tally.bits.update(bit for bit in range(8) if bits >> bit & 1)

    def _count(self, kind: str, characters: int) -> None:
        if characters > 0:
            self.tally.errors[kind] += characters


def _agreeing(first: bytearray, second: bytearray) -> int:
    """Return with how many characters alike both begin."""
    length = min(len(first), len(second))
    if first[:length] == second[:length]:
        return length
    low, high = 0, length
    while high - low > 1:
        middle = (low + high) // 2
        if first[:middle] == second[:middle]:
            low = middle
        else:
            high = middle
    return low
