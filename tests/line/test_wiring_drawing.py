"""Cables drawn: every joint is there, in few rows."""

import pytest

from termprobe.line.wiring_drawing import drawn
from termprobe.link.wirings import WIRINGS, nets


@pytest.mark.parametrize("name", WIRINGS)
def test_every_pin_that_is_joined_is_drawn_in_at_most_twenty_rows(name):
    rows = drawn(WIRINGS[name])
    assert len(rows) <= 20 and max(map(len, rows)) <= 50
    pins = [pin for net in nets(WIRINGS[name]) for pin in net]
    text = "\n".join(rows)
    for pin in pins:
        assert f" {pin.circuit.upper()}" in text
    assert text.count("GND") == 2 * any(pin.side == "board" for pin in pins)


def test_pins_that_are_joined_stand_together():
    assert drawn(WIRINGS["crossed-no-dtr"]) == (
        "computer (9 pins)             board (25 pins)",
        "            3 TXD ----------- 3 RXD",
        "            2 RXD ----------- 2 TXD",
        "            7 RTS ----------- 5 CTS",
        "            8 CTS ----------- 4 RTS",
        "            5 GND ----------- 7 GND",
    )
    assert drawn(WIRINGS["data-joined"])[1:] == (
        "            3 TXD -----+",
        "            2 RXD -----+",
    )
