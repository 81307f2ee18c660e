"""Hears a person at the board's own keyboard: each press is told as soon as its code has come.

What follows so soon that no hand can have reached another key is more of that press, and told as
such: a bounce, a second code, or what comes of its release.
"""

from collections.abc import Iterable
from dataclasses import dataclass

from termprobe.link.base import Received
from termprobe.observer.base import Incoming
from termprobe.observer.press import (
    LONGEST_S,
    PRESS_QUIET_S,
    Ear,
    Events,
    bytes_of,
)
from termprobe.plan.model import Press

LISTENED_S = 0.02
"""So long one call listens where nothing comes."""
CODE_QUIET_S = 0.005
"""So long nothing may come before a code counts as whole."""
BEGUN_QUIET_S = 0.05
"""The same where what has come begins a longer code of the keyboard: adapters hold bytes back."""
BOUNCE_S = 0.025
"""A contact that bounces makes its code again within this time."""
NEXT_KEY_S = 0.08
"""The best typist needs so long for a key; keys that are rolled over may come faster."""
CHARACTERS_APART = 1.5
"""Where the line is slow, two bytes of one press come so many characters apart at most."""


@dataclass(frozen=True)
class HeardPress:
    """A press that was heard."""

    events: Events
    """All that has come of it; nothing where its time is over."""
    is_more: bool = False
    """It was told before; more of it has followed."""


class QuickEar(Ear):
    """An Ear that tells presses early; `codes` are those that the keyboard sends."""

    def __init__(self, incoming: Incoming, codes: Iterable[bytes] = ()) -> None:
        super().__init__(incoming)
        self._codes = frozenset(codes)
        self._is_quick = True
        self._last: list[Received] = []
        """What has come of the press told last, while more of it may follow."""
        self._last_since_s = 0.0
        self._has_grown = False

    def wait_for(self, press: Press, limit_s: float | None, is_quick: bool = True) -> None:
        """Wait from now on for `press`, as an Ear does.

        A machine, which presses the next key at once, and keys held together are not quick: what
        came of them is told once, when no more follows.
        """
        super().wait_for(press, limit_s)
        self._is_quick = is_quick and not press.held

    def rest(self) -> None:
        """Wait for no press any more."""
        super().rest()
        self._kept, self._last, self._has_grown = [], [], False

    @property
    def is_settled(self) -> bool:
        """Whether all that can come of the press told last has come and was told."""
        return not self._has_grown and self._is_silent()

    def listen(self) -> HeardPress | None:
        """Listen for a moment; return a press that was heard, None while none was."""
        if not self._is_quick:
            self._last = []
            events = self.turn()
            return None if events is None else HeardPress(events)
        self._kept += self._incoming.poll_events(0.0 if self._kept else LISTENED_S)
        self._grow()
        if self._has_grown and (self._kept or self._is_silent() or self._is_long()):
            return self._more()
        if self._kept:
            return self._first()
        if self._has_grown or not self._is_over():
            return None
        self._last = []
        return HeardPress(())

    def _grow(self) -> None:
        """Add what is of the press told last to it."""
        while self._last and self._kept and self._is_of_last(self._kept[0]):
            self._last.append(self._kept.pop(0))
            self._has_grown = True

    def _is_of_last(self, event: Received) -> bool:
        """Return whether `event` is of the press told last.

        It is where it comes too soon for another key, unless it is the code of one; and where it
        comes later, if it is the same code again and not what is waited for now.
        """
        pause_s = event.at_s - self._last[-1].at_s
        is_same = bool(event.data) and event.data in bytes_of(tuple(self._last))
        return pause_s < self._at_least(self._longest_pause_s(event, is_same))

    def _longest_pause_s(self, event: Received, is_same: bool) -> float:
        """Return so soon `event` must come to be of the press told last."""
        if self._is_wanted(event):
            return BOUNCE_S * is_same
        if is_same:
            return PRESS_QUIET_S
        return BOUNCE_S if event.data in self._codes else NEXT_KEY_S

    def _is_wanted(self, event: Received) -> bool:
        """Return whether `event` is what is waited for, and came after it was asked for."""
        is_of_it = self._press is not None and self._press.code.startswith(event.data)
        return is_of_it and bool(event.data) and event.at_s >= self._since_s

    def _at_least(self, pause_s: float) -> float:
        """Return `pause_s`, or how far apart two bytes of one press come on a slow line."""
        return max(pause_s, CHARACTERS_APART * self._incoming.link_format.character_s)

    def _is_silent(self) -> bool:
        """Return whether nothing more of the press told last can come."""
        if not self._last:
            return True
        return self._incoming.clock.now_s() - self._last[-1].at_s >= self._at_least(NEXT_KEY_S)

    def _is_long(self) -> bool:
        """Return whether the press told last goes on so long that its key is held or stuck."""
        return self._last[-1].at_s - self._last[0].at_s >= LONGEST_S

    def _more(self) -> HeardPress:
        """Tell the press told last again, with what has followed."""
        events = self._told(self._last)
        self._has_grown = False
        if self._is_long():
            self._last = []
        return HeardPress(events, is_more=True)

    def _first(self) -> HeardPress:
        """Tell the press that begins with what is kept, as soon as its code is whole."""
        self._last, self._last_since_s = [self._kept.pop(0)], self._since_s
        self._grow()
        while not self._kept and self._wait_for_more():
            self._grow()
        self._has_grown = False
        return HeardPress(self._told(self._last))

    def _wait_for_more(self) -> bool:
        """Return whether more came before the code counted as whole."""
        clock = self._incoming.clock
        whole_at_s = self._last[-1].at_s + self._quiet_s()
        more = self._incoming.poll_events(max(whole_at_s - clock.now_s(), 0.0))
        self._kept += more
        return bool(more) and not self._is_long()

    def _quiet_s(self) -> float:
        """Return how long nothing may come before what has come counts as a whole code."""
        data = bytes_of(tuple(self._last))
        is_begun = any(code.startswith(data) and code != data for code in self._codes)
        if not (data and is_begun):
            return CODE_QUIET_S
        return max(BEGUN_QUIET_S, CHARACTERS_APART * self._incoming.link_format.character_s)

    def _told(self, events: Iterable[Received]) -> Events:
        since_s = self._last_since_s
        return tuple(Received(round(one.at_s - since_s, 6), one.data, one.error) for one in events)

    def _is_over(self) -> bool:
        waited_s = self._incoming.clock.now_s() - self._since_s
        return self._limit_s is not None and waited_s >= self._limit_s
