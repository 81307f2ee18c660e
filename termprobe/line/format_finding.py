"""Finds speed and frame of a board over a link, by keys heard at one rate and another."""

import contextlib
from collections.abc import Callable, Collection, Iterator
from dataclasses import dataclass
from typing import Protocol

from termprobe.clock import Clock
from termprobe.errors import LinkSettingsError
from termprobe.line.format_search import (
    FORMAT_KEYS,
    MOST_HEARD,
    MOST_PRESSES,
    AskedPress,
    FormatSearch,
    Listened,
    without_marks,
)
from termprobe.line.formats import WireFormat, common_formats
from termprobe.link.base import LineFormat, Received
from termprobe.link.frame import Sampled

PRESS_WAIT_S = 15.0
"""How long a key is waited for."""
QUIET_S = 0.4
"""Where nothing has come for so long, the character is over, at the slowest rate too."""
MOST_SILENT = 3
"""Presses one after the other of which nothing comes: then nothing will."""


class ListenedLink(Protocol):
    """What a search needs of a Link."""

    name: str
    format: LineFormat

    @property
    def abilities(self) -> Collection[str]:
        """Those of ABILITIES that it has."""

    def set_format(self, format: LineFormat) -> None:
        """Take another speed and frame; raise LinkSettingsError where that is refused."""

    def read(self, wait_s: float) -> tuple[Received, ...]:
        """Return what has come; wait at most `wait_s` for the first."""


Prompt = Callable[[AskedPress], None]
"""Asks the builder for a press; returns at once."""


@dataclass(frozen=True)
class FoundFormat:
    """What was found."""

    classes: tuple[tuple[tuple[WireFormat, ...], float], ...]
    """What cannot be told apart, and how probable it is; the most probable class stands first."""
    presses: tuple[Listened, ...]
    refused_baud: tuple[int, ...]
    """Rates that the adapter refuses."""
    doubted_baud: tuple[int, ...]
    """Rates at which it seems to listen at another one than it says."""
    is_sure: bool
    """The first class can be named."""

    @property
    def wire(self) -> WireFormat:
        """The most probable."""
        return self.classes[0][0][0]

    @property
    def probability(self) -> float:
        """How probable its class is."""
        return self.classes[0][1]

    @property
    def is_silent(self) -> bool:
        """Return whether nothing came at all."""
        return not any(listened.heard for listened in self.presses)


def find_format(
    link: ListenedLink,
    clock: Clock,
    prompt: Prompt,
    wanted: LineFormat | None = None,
    press_wait_s: float = PRESS_WAIT_S,
    keys: str = FORMAT_KEYS,
) -> FoundFormat:
    """Return what the presses say that `prompt` asks for; the link has its own format again.

    `wanted` is the profile's format; of one key in `keys`, formats that it does not tell apart are
    one class. Raises LinkError; where the link cannot set frames, or the
    adapter refuses every rate, LinkSettingsError.
    """
    refuse_without_frames(link)
    search = FormatSearch(common_formats(wanted), "marks" in link.abilities, keys=keys)
    with own_format_again(link):
        while len(search.listened) < MOST_PRESSES and not search.is_sure():
            asked = search.next_press()
            try:
                link.set_format(LineFormat(asked.baud))
            except LinkSettingsError:
                search = search.without(asked.baud)
                if not search.rates_baud:
                    raise
                continue
            link.read(0.0)
            prompt(asked)
            search = search.after(Listened(asked, heard_press(link, clock, press_wait_s)))
            if _is_silent(search):
                break
    return FoundFormat(
        search.classes(),
        search.listened,
        search.refused_baud,
        search.doubted_baud,
        search.is_sure(),
    )


def refuse_without_frames(link: ListenedLink) -> None:
    """Raise LinkSettingsError where a link cannot set speed and frame."""
    if "frames" not in link.abilities:
        raise LinkSettingsError(
            f"{link.name}: the port must be able to set speed and frame of the line, but it "
            "carries characters alone; use the port of the adapter itself"
        )


@contextlib.contextmanager
def own_format_again(link: ListenedLink) -> Iterator[None]:
    """Give the link the format back that it had."""
    before = link.format
    try:
        yield
    finally:
        with contextlib.suppress(LinkSettingsError):
            link.set_format(before)


def heard_press(link: ListenedLink, clock: Clock, press_wait_s: float) -> tuple[Sampled, ...]:
    """Return what comes of a press, until the line is quiet; empty where nothing comes in time."""
    came = list(link.read(press_wait_s))
    quiet_from_s = clock.now_s()
    while came and clock.now_s() < quiet_from_s + QUIET_S:
        more = link.read(QUIET_S)
        if more:
            came += more
            quiet_from_s = clock.now_s()
        if len(came) > MOST_HEARD:
            break
    sampled = [one for received in came for one in _sampled(received)]
    if "marks" not in link.abilities:
        sampled = list(without_marks(sampled))
    return tuple(sampled[:MOST_HEARD])


def _sampled(received: Received) -> Iterator[Sampled]:
    """Yield the characters with their errors; a break is a code 0 without a stop bit."""
    errors = {"parity": "parity", "framing": "framing", "break": "framing"}
    for code in received.data:
        yield Sampled(code, errors.get(received.error, ""))


def _is_silent(search: FormatSearch) -> bool:
    last = search.listened[-MOST_SILENT:]
    return len(last) == MOST_SILENT and not any(listened.heard for listened in last)
