"""What could be wrong with a keyboard, and what each press would then send: one table for a profile.

Besides the faults of the simulated keyboard there are those of the board's transmitter and line, and causes outside the board:
a host that reads another format, and a profile that is wrong where the keyboard is right.
"""

import dataclasses
from dataclasses import dataclass

from termprobe.board.faults import speed
from termprobe.board.faults.bus import faults_of_bus
from termprobe.board.faults.catalogue import keyboard_catalogue
from termprobe.board.faults.line import parity_faults
from termprobe.board.frame import heard
from termprobe.board.keyboard_board import simulate
from termprobe.board.link import board_format
from termprobe.board.wiring import KEYBOARD_CODE, Wiring
from termprobe.plan.presses import chord_presses, coded_presses
from termprobe.profile.key_codes import code_of

HEALTHY = "healthy"
TRANSMITTER = "transmitter-data"
SPEED_RATIOS = {
    "0.5": "half",
    "0.9": "90 % of",
    "0.92": "92 % of",
    "0.93": "93 % of",
    "0.94": "94 % of",
    "0.945": "94.5 % of",
    "1.055": "105.5 % of",
    "1.06": "106 % of",
    "1.07": "107 % of",
    "1.08": "108 % of",
    "1.1": "110 % of",
    "2": "twice",
}
"""The board's speed over the host's, with words: the usual mistakes, and near 1 one for each set of bits of a 10-bit frame that
are then sampled in the place of a neighbour. From 0.948 to 1.052 every bit is sampled in its own place."""

WEIGHTS = {
    "key-dead": 4.0,
    "key-flaky": 4.0,
    "key-bounces": 3.0,
    "row-open": 2.0,
    "column-open": 2.0,
    "shift-dead": 2.0,
    "control-dead": 2.0,
    "shift-stuck": 1.0,
    "control-stuck": 1.0,
    "rows-bridged": 0.5,
    "columns-bridged": 0.5,
    "rows-swapped": 0.3,
    "columns-swapped": 0.3,
    "keys-swapped": 0.3,
    "diode-shorted": 0.2,
    "stuck": 2.0,
    "bridged": 0.5,
    "swapped": 0.3,
    "format": 6.0,
    "parity": 6.0,
    "speed": 3.0,
    "pairing": 2.0,
    "control": 2.0,
    "inverted": 1.0,
    "fixed": 1.0,
    "ratio": 1.0,
    "silent": 8.0,
    HEALTHY: 60.0,
}
"""How common each kind is against the others: contacts before lines, open lines and stuck bits before bridges, layout errors
last; cables and a wrong format of the host before all. Ranks are those that builders report; the numbers are common practice."""

ERROR = "error"
"""The outcome (ERROR, kind) stands for any bytes that come with that error of the line."""


@dataclass(frozen=True)
class Hypothesis:
    """One thing that could be wrong."""

    name: str
    """A fault's name, or `host/...` and `profile/...` for causes outside the board."""
    title: str
    block: str
    weight: float
    sends: dict[str, tuple]
    """Press id -> outcomes that it may have, each as likely: `seen()` of the bytes and the error of the line."""

    def changes(self, healthy):
        """Return press id -> outcomes, for the presses that are not as on a healthy keyboard."""
        return {
            press: outcomes
            for press, outcomes in self.sends.items()
            if outcomes != healthy.sends[press]
        }


def seen(data, error="", is_chord=False):
    """Return what is compared of a press: its bytes without their order, since a scan's order is not known, and the error.

    Of several keys held together each byte counts once: held long enough, they repeat.
    """
    return tuple(sorted(set(data) if is_chord else data)), error


def hypotheses(profile, with_chords=False):
    """Return every Hypothesis for the keyboard of `profile`, healthy first; made once for each Profile object.

    Each holds what all coded presses send, and what all chords do where these are wanted as well.
    """
    known = _KNOWN.get((id(profile), with_chords))
    if known is None or known[0] is not profile:
        presses = coded_presses(profile) + (chord_presses(profile) if with_chords else ())
        known = _KNOWN[id(profile), with_chords] = profile, _made(profile, presses)
    return known[1]


_KNOWN = {}
"""id of a Profile, and whether with chords: the Profile, held so that its id stays its own, and its hypotheses."""


def _made(profile, presses):
    normal = {press.id: (_seen(press, press.code),) for press in presses}
    found = [Hypothesis(HEALTHY, "nothing is wrong", "", WEIGHTS[HEALTHY], normal)]
    for fault in keyboard_catalogue(profile).values():
        kind, keys = fault.name.split("/")[1], _keys_touched(fault)
        asked = [press for press in presses if not keys or keys & {press.key, *press.held}]
        sends = normal | _sent(simulate(profile, (fault,)), asked, 2 if kind == "key-flaky" else 1)
        found.append(Hypothesis(fault.name, fault.title, fault.block, WEIGHTS[kind], sends))
    return (
        *found,
        *_board(profile, presses, found),
        *_speeds(profile, presses),
        *_host(presses, profile.link.parity),
        *_profile(profile, presses),
    )


def _keys_touched(fault):
    """Return the names of the keys whose contacts are all that `fault` touches; no names where it is of a line or a diode."""
    wiring = Wiring()
    fault.apply(wiring)
    return (
        wiring.keys.dead | wiring.keys.bouncing | wiring.keys.flaky | wiring.keys.exchanged.keys()
    )


def _sent(keyboard, presses, times):
    """Return press id -> the different outcomes of pressing so many times."""
    return {
        press.id: tuple(dict.fromkeys(_seen(press, _came(keyboard, press)) for _ in range(times)))
        for press in presses
    }


def _came(keyboard, press):
    if press.held:
        events = keyboard.chord([*press.held, press.key])
    else:
        events = keyboard.press(press.key, frozenset(press.modifiers))
    return b"".join(data for _, data in events)


def _seen(press, data, error=""):
    return seen(data, error, is_chord=bool(press.held))


def _board(profile, presses, found):
    """Yield the faults behind the keyboard, of a board whose circuit is known: of its transmitter's lines and its parity bit.

    A code goes through the transmitter as it goes through the code lines of the keyboard: no press can tell these apart.
    """
    if profile.circuit is None:
        return
    of_code_lines = {one.name: one for one in found if one.block == KEYBOARD_CODE.where}
    for fault in faults_of_bus(TRANSMITTER, profile):
        alike = of_code_lines[fault.name.replace(TRANSMITTER, KEYBOARD_CODE.where)]
        yield Hypothesis(fault.name, fault.title, fault.block, alike.weight, alike.sends)
    for fault in parity_faults(profile):
        yield Hypothesis(
            fault.name,
            fault.title,
            fault.block,
            WEIGHTS[fault.name.split("/")[1]],
            _heard(profile, presses, fault),
        )


def _speeds(profile, presses):
    """Yield each ratio of speeds twice, as the host's mistake and, where the circuit is known, as the board's."""
    for ratio, how in SPEED_RATIOS.items():
        fault = speed.fault_named(profile, f"baud/ratio/{ratio}")
        sends = _heard(profile, presses, fault)
        yield Hypothesis(
            f"host/speed/{ratio}",
            f"the board sends at {how} the speed at which the host listens",
            "link",
            WEIGHTS["speed"],
            sends,
        )
        if profile.circuit is not None:
            yield Hypothesis(fault.name, fault.title, fault.block, WEIGHTS["ratio"], sends)


def _heard(profile, presses, fault):
    """Return press id -> what a host hears of a healthy keyboard on a line with `fault`."""
    wiring, line = Wiring(), board_format(profile)
    fault.apply(wiring)

    def outcome(press):
        pieces = (
            [bytes([code]) for code in press.code] if press.held else [press.code]
        )  # keys held together send one by one
        came = [
            one
            for data in pieces
            for one in heard(data, line, line, wiring.speed_ratio, wiring.parity)
        ]
        return _seen(
            press, bytes(code for code, _ in came), next((error for _, error in came if error), "")
        )

    return {press.id: (outcome(press),) for press in presses}


def _host(presses, parity):
    """Yield what a host that reads the line wrongly, or not at all, would see of a healthy keyboard."""
    yield Hypothesis(
        "host/silent",
        "nothing arrives: the cable, the adapter, the line driver, local mode, or a keyboard that is not connected",
        "link",
        WEIGHTS["silent"],
        {press.id: (_seen(press, b""),) for press in presses},
    )
    parities = {
        "even": lambda code: code | 0x80 * (code.bit_count() & 1),
        "odd": lambda code: code | 0x80 * (~code.bit_count() & 1),
        "mark": lambda code: code | 0x80,
    }
    for name, with_bit in parities.items():
        yield Hypothesis(
            f"host/format/{name}",
            f"the host reads 8 data bits, and the board sends 7 and {name} parity",
            "link",
            WEIGHTS["format"],
            {press.id: (_seen(press, bytes(map(with_bit, press.code))),) for press in presses},
        )
    yield Hypothesis(
        "host/parity",
        "the host expects another parity than the board sends",
        "link",
        WEIGHTS["parity"],
        {press.id: (_seen(press, press.code, "parity"),) for press in presses},
    )
    for fixed, level, word in (
        (("mark", 1, "1, or none"), ("space", 0, "0")) if parity in ("even", "odd") else ()
    ):
        wrong = {
            press.id: any((parities[parity](code) >> 7) != level for code in press.code)
            for press in presses
        }
        yield Hypothesis(
            f"host/parity/{fixed}",
            f"the host expects {parity} parity, and the board sends a parity bit fixed at {word}",
            "link",
            WEIGHTS["parity"],
            {
                press.id: (_seen(press, press.code, "parity" if wrong[press.id] else ""),)
                for press in presses
            },
        )
    errors = tuple(
        (ERROR, kind) for kind in (("framing",) if parity == "none" else ("framing", "parity"))
    )
    yield Hypothesis(
        "host/speed",
        "the speeds of host and board differ, or come near enough to it that bits are lost now and then",
        "link",
        WEIGHTS["speed"],
        {press.id: (_seen(press, press.code), *errors) for press in presses},
    )


def _profile(profile, presses):
    """Yield what a healthy keyboard sends where one rule of the profile is wrong."""
    keyboard = profile.keyboard
    rules = [
        (
            "pairing",
            "pairing",
            other,
            f"the keyboard is {other}-paired, and the profile says {keyboard.pairing}",
        )
        for other in ("bit", "typewriter")
        if other != keyboard.pairing and keyboard.pairing != "none"
    ]
    rules += [
        (
            "control",
            "control",
            other,
            f"CONTROL forms codes by {other}, and the profile says {keyboard.control}",
        )
        for other in ("and-1Fh", "xor-40h")
        if other != keyboard.control
    ]
    if keyboard.letters == "both-cases":
        rules.append(
            (
                "control",
                "letters",
                "upper-only",
                "the keyboard sends capitals only, and the profile says both cases",
            )
        )
    for kind, field, value, title in rules:
        other = dataclasses.replace(keyboard, **{field: value})
        sends = {press.id: (_seen(press, _formed(other, press)),) for press in presses}
        yield Hypothesis(f"profile/{field}/{value}", title, "profile", WEIGHTS[kind], sends)


def _formed(keyboard, press):
    """Return what `keyboard` sends for `press`; keys held before it are pressed without modifiers."""
    codes = (
        code_of(keyboard, keyboard.key(name), frozenset(press.modifiers))
        for name in (*press.held, press.key)
    )
    return b"".join(code or b"" for code in codes)
