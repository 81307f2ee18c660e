"""A cable as plain text: the pins of both sides, and lines between those that are joined."""

import itertools
from collections.abc import Iterator

from termprobe.link.wirings import AT_BOARD, AT_COMPUTER, PIN_NUMBERS, CableWiring, Pin, nets

LINE = "-----"
NO_LINE = " " * len(LINE)
_HEADS = "computer (9 pins)", "board (25 pins)"
_LEFT = len(_HEADS[0])


def drawn(wiring: CableWiring) -> tuple[str, ...]:
    """Return the drawing, at most 20 rows; pins that are joined stand together."""
    rows = [f"{_HEADS[0]} {NO_LINE} {NO_LINE} {_HEADS[1]}"]
    order = list(PIN_NUMBERS)
    before = 1
    for net in sorted(nets(wiring), key=lambda net: min(_rank(pin, order) for pin in net)):
        of_net = list(_of_net(sorted(net, key=lambda pin: _rank(pin, order))))
        if min(before, len(of_net)) > 1:
            rows.append("")
        rows += of_net
        before = len(of_net)
    if any(pin.side == AT_BOARD for net in nets(wiring) for pin in net):
        rows.append(_row("5 GND", "7 GND", "-"))
    return tuple(row.rstrip() for row in rows)


def _rank(pin: Pin, order: list[str]) -> tuple[bool, int]:
    return pin.side == AT_BOARD, order.index(pin.circuit)


def _of_net(pins: list[Pin]) -> Iterator[str]:
    """Yield the rows of pins that are all joined."""
    left = [_named(pin) for pin in pins if pin.side == AT_COMPUTER]
    right = [_named(pin) for pin in pins if pin.side == AT_BOARD]
    joint = "+" if max(len(left), len(right)) > 1 else "-"
    for here, there in itertools.zip_longest(left, right, fillvalue=""):
        yield _row(here, there, joint)


def _named(pin: Pin) -> str:
    numbers = PIN_NUMBERS[pin.circuit]
    number = {AT_COMPUTER: numbers.de9, AT_BOARD: numbers.db25}[pin.side]
    return f"{number} {pin.circuit.upper()}"


def _row(here: str, there: str, joint: str) -> str:
    line_here = LINE if here else NO_LINE
    line_there = LINE if there else NO_LINE
    return f"{here:>{_LEFT}} {line_here}{joint}{line_there} {there}"
