"""Which cables explain what is seen of one from the computer's side, and what each must suppose.

What a wiring makes of the signs follows from its table alone: which pin drives which.
"""

from dataclasses import dataclass, field
from typing import NamedTuple

from termprobe.link.wirings import (
    AT_BOARD,
    AT_COMPUTER,
    DRIVEN_BY,
    WIRINGS,
    CableWiring,
    Pin,
    nets,
)

HEARD = ("cts", "dsr", "dcd", "ri")
"""Control lines that a computer hears."""
SENDS_ON = {"dte": Pin(AT_BOARD, "txd"), "dce": Pin(AT_BOARD, "rxd")}
HEARS_ON = {"dte": Pin(AT_BOARD, "rxd"), "dce": Pin(AT_BOARD, "txd")}
OURS = Pin(AT_COMPUTER, "txd")
AS_MODEM = "the board is wired as a modem is"


@dataclass(frozen=True)
class LineSigns:
    """What is seen of a cable; None, or a control line that is left out, where it is not known."""

    follows: dict[str, frozenset[str]] = field(default_factory=dict)
    """Control line that we hear -> which of our `rts` and `dtr` it follows."""
    on: dict[str, bool] = field(default_factory=dict)
    """Control line that we hear -> whether it is on while both of ours are."""
    hears_itself: bool | None = None
    """What is sent comes back at once."""
    key_comes: bool | None = None
    """Something comes where a key of the board is pressed."""
    shows: bool | None = None
    """Something shows on the board where a character is sent."""
    typed_shows: bool | None = None
    """At full duplex a typed key shows on the board by itself."""


class PossibleCable(NamedTuple):
    """A cable that can be on the bench, with the kind of the board."""

    wiring: CableWiring
    kind: str
    """dte as terminals are, or dce."""
    supposed: tuple[str, ...]
    """What must be supposed besides, in words; the fewer, the likelier."""

    @property
    def carries_both_ways(self) -> bool:
        """Whether data can pass in both directions."""
        heard_here = driver_of(self.wiring, self.kind, Pin(AT_COMPUTER, "rxd"))
        heard_there = driver_of(self.wiring, self.kind, HEARS_ON[self.kind])
        return heard_here == SENDS_ON[self.kind] and heard_there == OURS


def driver_of(wiring: CableWiring, kind: str, heard: Pin) -> Pin | None:
    """Return the pin that alone drives `heard`; None where none does, or two fight."""
    for net in nets(wiring):
        if heard in net:
            drivers = [pin for pin in net if _drives(pin, kind)]
            return drivers[0] if len(drivers) == 1 else None
    return None


def _drives(pin: Pin, kind: str) -> bool:
    return pin.circuit in DRIVEN_BY[{AT_COMPUTER: "dte", AT_BOARD: kind}[pin.side]]


def explanations(signs: LineSigns, handshake: str = "none") -> list[PossibleCable]:
    """Return the cables that can be on the bench, the likeliest first.

    `handshake` is what the board's profile claims. Where as little must be supposed the order is
    that of the table, in which common cables stand first.
    """
    found = []
    for kind in DRIVEN_BY:
        for wiring in WIRINGS.values():
            supposed = _supposed(wiring, kind, signs, handshake)
            if supposed is not None:
                found.append(PossibleCable(wiring, kind, tuple(supposed)))
    return sorted(found, key=lambda one: len(one.supposed))


def likeliest(found: list[PossibleCable]) -> list[PossibleCable]:
    """Return those that suppose least; from this side they cannot be told apart."""
    return [one for one in found if len(one.supposed) == len(found[0].supposed)]


class _ImpossibleError(Exception):
    """The signs cannot come of the wiring."""


def _supposed(wiring: CableWiring, kind: str, signs: LineSigns, handshake: str) -> list[str] | None:
    """Return what must be supposed for `signs` to come of the wiring; None where they cannot."""
    supposed = []
    if kind == "dce":
        supposed.append(AS_MODEM)
    try:
        for circuit in HEARD:
            supposed += _of_control_line(wiring, kind, signs, circuit)
        supposed += _of_data(wiring, kind, signs, handshake)
    except _ImpossibleError:
        return None
    return supposed


def _of_control_line(
    wiring: CableWiring, kind: str, signs: LineSigns, circuit: str
) -> tuple[str, ...]:
    follows, is_on = signs.follows.get(circuit), signs.on.get(circuit)
    if follows is None or is_on is None:
        return ()
    driver = driver_of(wiring, kind, Pin(AT_COMPUTER, circuit))
    ours = frozenset[str]()
    if driver is not None and driver.side == AT_COMPUTER:
        ours = frozenset([driver.circuit])
    if follows != ours or (is_on and driver is None):
        raise _ImpossibleError
    if is_on or driver is None:
        return ()
    if driver.circuit == "ri":
        return ()  # on while a telephone rings
    return (f"the board leaves its {driver.circuit.upper()} off",)


def _of_data(wiring: CableWiring, kind: str, signs: LineSigns, handshake: str) -> tuple[str, ...]:
    heard_here = driver_of(wiring, kind, Pin(AT_COMPUTER, "rxd"))
    heard_there = driver_of(wiring, kind, HEARS_ON[kind])
    if signs.hears_itself not in (None, heard_here == OURS):
        raise _ImpossibleError
    comes = heard_here == SENDS_ON[kind]
    if (signs.key_comes and not comes) or (signs.shows and heard_there != OURS):
        raise _ImpossibleError
    supposed = []
    if signs.key_comes is False and comes and not _waits(wiring, kind, handshake):
        supposed.append("the board sends nothing")
    if signs.shows is False and heard_there == OURS:
        supposed.append("the board shows nothing of what it is sent")
    loops = heard_there == SENDS_ON[kind]
    if signs.typed_shows is False and loops:
        supposed.append("the board shows nothing of what it is sent")
    if signs.typed_shows and not loops:
        supposed.append("the board shows its own keys: half duplex, or local")
    return tuple(supposed)


def _waits(wiring: CableWiring, kind: str, handshake: str) -> bool:
    """Return whether a board that sends while its CTS is on would send nothing on this cable."""
    waits_on = Pin(AT_BOARD, {"dte": "cts", "dce": "rts"}[kind])
    return handshake == "rts-cts" and driver_of(wiring, kind, waits_on) is None
