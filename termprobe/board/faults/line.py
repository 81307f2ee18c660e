"""Faults around the serial line: the gates of echo and handshake, and the parity bit."""

from collections.abc import Iterator
from functools import partial

from termprobe.board.faults.model import Fault, make
from termprobe.board.wiring import Wiring, circuit_of
from termprobe.profile.model import Profile

BLOCKS = ("echo-gate", "handshake-gate", "parity")


def faults(profile: Profile) -> Iterator[Fault]:
    """Yield the faults of each gate and bit that a board of `profile` has."""
    yield from _echo_faults(profile)
    yield from _handshake_faults(profile)
    yield from parity_faults(profile)


def _echo_faults(profile: Profile) -> Iterator[Fault]:
    """Yield the faults of the gate that lets the board show its own keys."""
    if circuit_of(profile).echo_option:
        yield make(
            "echo-gate/stuck-open",
            "the board never shows its own keys, whatever the switch says",
            partial(_hold_echo_gate, "stuck-open"),
        )
    yield make(
        "echo-gate/stuck-closed",
        "the board always shows its own keys",
        partial(_hold_echo_gate, "stuck-closed"),
    )


def _hold_echo_gate(state: str, wiring: Wiring) -> None:
    wiring.echo_gate = state


def _handshake_faults(profile: Profile) -> Iterator[Fault]:
    """Yield the faults of the gate that makes the transmitter wait."""
    if profile.link.handshake != "none":
        yield make(
            "handshake-gate/ignored",
            "the board sends although the other side says wait",
            _ignore_handshake,
        )


def _ignore_handshake(wiring: Wiring) -> None:
    wiring.handshake_ignored = True


def parity_faults(profile: Profile) -> Iterator[Fault]:
    """Yield the faults of the parity bit that is sent."""
    if profile.link.parity == "none":
        return
    yield make(
        "parity/inverted", "the parity bit is sent inverted", partial(_change_parity, "inverted")
    )
    for level in "01":
        yield make(
            f"parity/fixed/{level}",
            f"the parity bit is always sent as {level}",
            partial(_change_parity, level),
        )


def _change_parity(change: str, wiring: Wiring) -> None:
    wiring.parity = change
