"""What could be wrong with a keyboard, and what each press would then send: one table for a profile.

Besides the faults of the simulated keyboard there are causes outside the board: a host that reads another format, and a
profile that is wrong where the keyboard is right.
"""

import dataclasses
from dataclasses import dataclass

from termprobe.board.keyboard_faults import keyboard_catalogue, simulate
from termprobe.plan.presses import coded_presses
from termprobe.profile.keyboard import code_of

HEALTHY = "healthy"

WEIGHTS = {
    "key-dead": 4.0, "key-flaky": 4.0, "key-bounces": 3.0, "row-open": 2.0, "column-open": 2.0, "shift-dead": 2.0, "control-dead": 2.0,
    "shift-stuck": 1.0, "control-stuck": 1.0, "rows-bridged": 0.5, "columns-bridged": 0.5, "keys-swapped": 0.3, "diode-shorted": 0.2,
    "stuck": 2.0, "bridged": 0.5, "swapped": 0.3, "format": 6.0, "parity": 6.0, "speed": 3.0, "pairing": 2.0, "control": 2.0, HEALTHY: 60.0,
}
"""How common each kind is against the others: contacts before lines, open lines and stuck bits before bridges, layout errors
last; a wrong format of the host before all. Ranks are those that builders report; the numbers are common practice."""

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
        return {press: outcomes for press, outcomes in self.sends.items() if outcomes != healthy.sends[press]}


def seen(data, error=""):
    """Return what is compared of a press: its bytes without their order, since a scan's order is not known, and the error."""
    return tuple(sorted(data)), error


def hypotheses(profile):
    """Return every Hypothesis for the keyboard of `profile`, healthy first; made once for each Profile object."""
    known = _KNOWN.get(id(profile))
    if known is None or known[0] is not profile:
        known = _KNOWN[id(profile)] = profile, _made(profile)
    return known[1]


_KNOWN = {}
"""id of a Profile: the Profile, held so that its id stays its own, and its hypotheses."""


def _made(profile):
    presses = coded_presses(profile)
    found = [Hypothesis(HEALTHY, "nothing is wrong", "", WEIGHTS[HEALTHY], {press.id: (seen(press.code),) for press in presses})]
    for fault in keyboard_catalogue(profile).values():
        kind = fault.name.split("/")[1]
        found.append(Hypothesis(fault.name, fault.title, fault.block, WEIGHTS[kind], _sent(profile, presses, fault, kind)))
    return (*found, *_host(presses), *_profile(profile, presses))


def _sent(profile, presses, fault, kind):
    keyboard = simulate(profile, (fault,))
    if kind == "key-flaky":
        flaky = fault.name.rsplit("/", 1)[1]
        return {press.id: (seen(press.code), seen(b"")) if press.key == flaky else (seen(press.code),) for press in presses}
    sent = {}
    for press in presses:
        data = b"".join(data for _, data in keyboard.press(press.key, frozenset(press.modifiers)))
        sent[press.id] = (seen(data),)
    return sent


def _host(presses):
    """Yield what a host that reads the line wrongly would see of a healthy keyboard."""
    parities = {
        "even": lambda code: code | 0x80 * (code.bit_count() & 1), "odd": lambda code: code | 0x80 * (~code.bit_count() & 1),
        "mark": lambda code: code | 0x80}
    for name, with_bit in parities.items():
        yield Hypothesis(f"host/format/{name}", f"the host reads 8 data bits, and the board sends 7 and {name} parity", "link",
                         WEIGHTS["format"], {press.id: (seen(bytes(map(with_bit, press.code))),) for press in presses})
    yield Hypothesis("host/parity", "the host expects another parity than the board sends", "link", WEIGHTS["parity"],
                     {press.id: (seen(press.code, "parity"),) for press in presses})
    yield Hypothesis("host/speed", "the speeds of host and board differ by a little", "link", WEIGHTS["speed"],
                     {press.id: (seen(press.code), (ERROR, "framing")) for press in presses})


def _profile(profile, presses):
    """Yield what a healthy keyboard sends where one rule of the profile is wrong."""
    keyboard = profile.keyboard
    rules = [("pairing", "pairing", other, f"the keyboard is {other}-paired, and the profile says {keyboard.pairing}")
             for other in ("bit", "typewriter") if other != keyboard.pairing and keyboard.pairing != "none"]
    rules += [("control", "control", other, f"CONTROL forms codes by {other}, and the profile says {keyboard.control}")
              for other in ("and-1Fh", "xor-40h") if other != keyboard.control]
    if keyboard.letters == "both-cases":
        rules.append(("control", "letters", "upper-only", "the keyboard sends capitals only, and the profile says both cases"))
    for kind, field, value, title in rules:
        other = dataclasses.replace(keyboard, **{field: value})
        sends = {press.id: (seen(code_of(other, other.key(press.key), frozenset(press.modifiers)) or b""),) for press in presses}
        yield Hypothesis(f"profile/{field}/{value}", title, "profile", WEIGHTS[kind], sends)
