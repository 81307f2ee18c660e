"""What a line does by itself: checks by what comes back and control lines, and nobody looks.

A loopback plug ties transmitted to received data, RTS to CTS, and DTR to DSR and DCD. What must
then follow is its truth table (CCITT V.24, circuits 103 to 109; the ties are common practice).
"""

from collections.abc import Callable

from termprobe.line.break_check import plug_break
from termprobe.line.busy import busy_ignored, host_sees_busy
from termprobe.line.compare import Comparer
from termprobe.line.duplex import both_ways
from termprobe.line.functions import (
    break_sent,
    key_repeats,
    keys_stay_local,
    nothing_comes,
)
from termprobe.line.handshake import board_stops_cts, board_stops_dtr, board_stops_xoff
from termprobe.line.in_use import (
    Checked,
    LineInUse,
    counted_since,
    echoed,
    follows_ours,
    levels_with,
    patience_s,
)
from termprobe.line.key_format import key_format
from termprobe.line.lateness import plug_delay
from termprobe.line.levels import levels
from termprobe.line.long_text import long_text
from termprobe.line.wiring_check import TOKEN, wiring
from termprobe.link.pacer import XOFF, XON
from termprobe.notation import show

PIECE = 16
"""Characters sent at a time."""
TIMED_S = 1.5
"""How long a block takes that is timed: so long that delays of an adapter do not count."""
ALLOWED_PERCENT = 3.0
"""By how much a rate may seem off: an adapter's delay of some 20 ms is in it."""
SHOWN = 12


def plug_bytes(line: LineInUse) -> Checked:
    """Send every code that the frame carries; each must come back."""
    codes = bytes(range(1 << line.link_format.data_bits)).translate(None, bytes([XON, XOFF]))
    comparer, came, before = Comparer(), b"", dict(line.counters())
    for start in range(0, len(codes), PIECE):
        comparer.sent(codes[start : start + PIECE])
        came += echoed(line, codes[start : start + PIECE])
    if not came:
        return Checked(None, "nothing came back: is the plug in, and this the port it is on?")
    comparer.came(came)
    comparer.end()
    errors = comparer.tally.errors
    if not comparer.tally.wrong:
        return Checked(True, f"all {len(codes)} codes came back{counted_since(line, before)}")
    told = ", ".join(f"{count} {kind}" for kind, count in errors.most_common() if count)
    bits = ", ".join(str(bit) for bit in sorted(comparer.tally.bits))
    said = f"of {len(codes)} codes {told}" + f"; bits {bits}" * bool(bits)
    return Checked(False, said + counted_since(line, before))


def plug_rate(line: LineInUse) -> Checked:
    """Time a block: some adapters run at another rate than they say."""
    count = max(round(TIMED_S / line.link_format.character_s), PIECE)
    begun_s, last_s, came = line.clock.now_s(), line.clock.now_s(), 0
    for start in range(0, count, PIECE):
        line.send(b"U" * min(PIECE, count - start))
        for received in line.poll_events():
            came, last_s = came + len(received.data), received.at_s
    while came < count and (more := line.poll_events(patience_s(line, PIECE))):
        came, last_s = came + sum(len(one.data) for one in more), more[-1].at_s
    if not came:
        return Checked(None, "nothing came back: is the plug in?")
    if came < count:
        return Checked(False, f"of {count} characters {count - came} did not come back")
    speed_baud = line.link_format.speed_baud
    actual_baud = count * line.link_format.frame_bits / max(last_s - begun_s, 1e-9)
    off = 100 * (actual_baud / speed_baud - 1)
    said = f"{count} characters at {actual_baud:,.0f} baud, {off:+.1f} % off {speed_baud:,}"
    return Checked(abs(off) <= ALLOWED_PERCENT, said)


def plug_lines(line: LineInUse) -> Checked:
    """Raise and drop RTS and DTR; CTS, DSR and DCD must follow as the plug ties them."""
    if line.lines() is None:
        return Checked(None, "this port has no control lines")
    wrong = []
    for driven, following in (("rts", ("cts",)), ("dtr", ("dsr", "dcd"))):
        levels = {on: levels_with(line, driven, on) for on in (False, True)}
        wrong += [
            f"{name.upper()} stays {_on_or_off(levels[True][name])} whatever {driven.upper()} does"
            for name in following
            if (levels[False][name], levels[True][name]) != (False, True)
        ]
    if wrong:
        return Checked(False, "; ".join(wrong))
    return Checked(True, "CTS follows RTS; DSR and DCD follow DTR")


def no_echo(line: LineInUse) -> Checked:
    """Send a token that no board sends by itself; it must not come back."""
    came = echoed(line, TOKEN)
    if TOKEN in came:
        return Checked(
            False,
            "I hear myself: what is sent comes back at once, so transmitted and received data are "
            "tied on the way, or the plug is still in",
        )
    if came:
        return Checked(None, f"something else came: {show(came[:SHOWN])}")
    return Checked(True, "nothing of what is sent comes back")


def board_lines(line: LineInUse) -> Checked:
    """Read which control lines the other side drives.

    Many boards have three wires and drive none; one whose handshake is rts-cts must drive CTS.
    """
    levels = line.lines()
    if levels is None:
        return Checked(None, "this port has no control lines")
    on = [name.upper() for name, is_on in levels.items() if is_on]
    off = [name.upper() for name, is_on in levels.items() if not is_on]
    tied = [name for name in ("cts", "dsr", "dcd") if follows_ours(line, name)]
    said = f"on: {', '.join(on) or 'none'}; off: {', '.join(off) or 'none'}"
    if tied:
        names = ", ".join(name.upper() for name in tied)
        return Checked(
            False, f"{said}; {names} follow our own RTS or DTR, so they are tied on this side"
        )
    if not on:
        is_needed = line.handshake == "rts-cts"
        return Checked(False if is_needed else None, f"{said}; three wires, or the board is off")
    return Checked(True, said)


CHECKS: dict[str, Callable[[LineInUse], Checked]] = {
    "plug-bytes": plug_bytes,
    "plug-rate": plug_rate,
    "plug-delay": plug_delay,
    "plug-lines": plug_lines,
    "plug-break": plug_break,
    "no-echo": no_echo,
    "board-lines": board_lines,
    "key-format": key_format,
    "wiring": wiring,
    "board-stops-xoff": board_stops_xoff,
    "board-stops-cts": board_stops_cts,
    "board-stops-dtr": board_stops_dtr,
    "host-sees-busy": host_sees_busy,
    "busy-ignored": busy_ignored,
    "both-ways": both_ways,
    "long-text": long_text,
    "levels": levels,
    "nothing-comes": nothing_comes,
    "break-sent": break_sent,
    "keys-stay-local": keys_stay_local,
    "key-repeats": key_repeats,
}
"""Word of a script's step: the check."""


def _on_or_off(level: bool) -> str:
    return "on" if level else "off"
