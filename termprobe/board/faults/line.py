"""Faults around the serial line: the gates of echo and handshake, the parity bit, the line's clock."""

import re
from functools import partial

from termprobe.board.faults.model import make
from termprobe.errors import UsageError

USUAL_RATIOS = ("0.5", "2")
"""A divider that divides once too often, or not at all. Any other ratio can be asked for by name."""


def echo_faults(profile):
    """Yield the faults of the gate that lets the board show its own keys."""
    if profile.circuit.echo_option:
        yield _set(
            "echo-gate/stuck-open",
            "the board never shows its own keys, whatever the switch says",
            "echo_gate",
            "stuck-open",
        )
    yield _set(
        "echo-gate/stuck-closed", "the board always shows its own keys", "echo_gate", "stuck-closed"
    )


def handshake_faults(profile):
    """Yield the faults of the gate that makes the transmitter wait."""
    if profile.link.handshake != "none":
        yield _set(
            "handshake-gate/ignored",
            "the board sends although the other side says wait",
            "handshake_ignored",
            True,
        )


def parity_faults(profile):
    """Yield the faults of the parity bit that is sent."""
    if profile.link.parity != "none":
        yield _set("parity/inverted", "the parity bit is sent inverted", "parity", "inverted")
        for level in "01":
            yield _set(
                f"parity/fixed/{level}",
                f"the parity bit is always sent as {level}",
                "parity",
                level,
            )


def baud_faults(profile):
    """Yield the usual faults of the line's clock."""
    return (baud_fault(profile, f"baud/ratio/{ratio}") for ratio in USUAL_RATIOS)


def baud_fault(_profile, name):
    """Return the fault `baud/ratio/RATIO`; raise UsageError where RATIO is none."""
    parts = re.fullmatch(r"baud/ratio/(\d{1,3}(?:\.\d{1,6})?)", name)
    if not parts or not 0.01 <= float(parts[1]) <= 100:
        raise UsageError(
            f'a fault of the line\'s clock must be baud/ratio/RATIO, a number from 0.01 to 100, not "{name}"'
        )
    return _set(
        name,
        f"the line's clock runs {parts[1]} times as fast as it should",
        "speed_ratio",
        float(parts[1]),
    )


def _set(name, title, field, value):
    return make(name, title, partial(_edit, field, value))


def _edit(field, value, wiring):
    setattr(wiring, field, value)
