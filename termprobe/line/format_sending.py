"""The other way: a text sent in each speed and frame, which names the one that it is sent in.

On the screen of a board it reads right where the board has that speed and frame, and wherever the
board takes no notice of what differs; which these are is worked out by link/frame.py.
"""

from collections.abc import Callable, Collection, Iterable
from typing import NamedTuple

from termprobe.clock import Clock
from termprobe.errors import LinkSettingsError
from termprobe.line.format_finding import own_format_again, refuse_without_frames
from termprobe.line.format_search import LISTENING_BAUD
from termprobe.line.formats import FRAMES, WireFormat
from termprobe.link.base import LineFormat, Link
from termprobe.link.frame import heard
from termprobe.link.frame_text import frame_text

PAUSE_S = 0.7
"""Between two texts: an eye follows, and what is garbled has an end."""
DRAIN_SPARE_S = 2.0
SENT_TIMES = 2
"""Garbage may hold an escape that swallows the beginning of what follows it."""


class SentFormat(NamedTuple):
    """One setting to be sent in."""

    number: int
    """From 1; it stands in the text."""
    format: LineFormat

    @property
    def label(self) -> str:
        """What is read on the screen: `12 300 7E1`."""
        return f"{self.number} {self.format.speed_baud} {frame_text(self.format)}"

    @property
    def text(self) -> bytes:
        """All that is sent."""
        return b"\r\n" + "  ".join([self.label] * SENT_TIMES).encode("ascii")


def formats_to_send(rates_baud: Iterable[int] = LISTENING_BAUD) -> tuple[SentFormat, ...]:
    """Return all settings, the slow ones last.

    All have one stop bit: a receiver looks at the first one alone.
    """
    formats = [
        LineFormat(baud, *frame) for baud in sorted(rates_baud, reverse=True) for frame in FRAMES
    ]
    return tuple(SentFormat(number, format) for number, format in enumerate(formats, 1))


def send_formats(
    link: Link, clock: Clock, tell: Callable[[SentFormat], None]
) -> tuple[tuple[SentFormat, ...], tuple[int, ...]]:
    """Send in each setting, and tell each; return what was sent, and the rates that were refused.

    The link has its own format again. Raises LinkError; LinkSettingsError where it sets no frames.
    """
    refuse_without_frames(link)
    sent: list[SentFormat] = []
    refused: dict[int, None] = {}
    with own_format_again(link):
        for setting in formats_to_send():
            try:
                link.set_format(setting.format)
            except LinkSettingsError:
                refused[setting.format.speed_baud] = None
                continue
            tell(setting)
            link.write(setting.text)
            link.drain(len(setting.text) * setting.format.character_s + DRAIN_SPARE_S)
            link.read(0.0)
            clock.sleep_until(clock.now_s() + PAUSE_S)
            sent.append(setting)
    return tuple(sent), tuple(refused)


class ReadAs(NamedTuple):
    """How a board may be set, that reads so."""

    wire: WireFormat
    shows_errors: bool
    """It does not show a character as it should where its frame or parity is wrong."""


def reads(board: ReadAs, sent: SentFormat) -> bool:
    """Return whether the text of a setting reads right on such a board."""
    wire = board.wire
    if sent.format.speed_baud != wire.baud:
        return False
    label = sent.label.encode("ascii")
    listener = LineFormat(sent.format.speed_baud, wire.data_bits, wire.parity)
    taken = heard(label, sent.format, listener)
    if board.shows_errors and any(one.error for one in taken):
        return False
    return bytes(one.code for one in taken) == label


def boards_that_read(sent: Collection[SentFormat], readable: Collection[int]) -> tuple[ReadAs, ...]:
    """Return the boards on which just these numbers of `sent` read right; empty where none is."""
    speeds_baud = {each.format.speed_baud for each in sent if each.number in readable}
    boards = [
        ReadAs(WireFormat(baud, *frame), shows_errors)
        for baud in sorted(speeds_baud)
        for frame in FRAMES
        for shows_errors in (True, False)
    ]
    return tuple(board for board in boards if _numbers_read(board, sent) == frozenset(readable))


def _numbers_read(board: ReadAs, sent: Iterable[SentFormat]) -> frozenset[int]:
    return frozenset(each.number for each in sent if reads(board, each))
