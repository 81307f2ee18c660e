"""What to probe for each suspect of a symptom, and what to send meanwhile, for there is no run."""

from collections.abc import Iterator, Sequence

from termprobe.board.wiring import BUSES, COUNTERS, DATA_LINES
from termprobe.diagnosis.fault_names import FaultName, parsed
from termprobe.diagnosis.key_conclusion import Suspect
from termprobe.diagnosis.key_probing import key_probe_of
from termprobe.diagnosis.probing import PROBED, Probing, commands_of, probe_of
from termprobe.notation import show
from termprobe.profile.encode import encode
from termprobe.profile.model import Profile

OF_KEYBOARD = ("keyboard-code", "transmitter-data")
PRINTED = range(0x21, 0x7F)
FULL_LINES = "text that fills the screen and lets it scroll"
FULL_SCREEN = (*COUNTERS, "ram-address", "bank-0-address", "bank-1-address", "bank-select")


def probes_of_each(
    suspects: Sequence[Suspect], profile: Profile
) -> tuple[tuple[Probing, ...], ...]:
    """Return for each suspect what to probe: the likeliest fault of each of its first blocks."""
    return tuple(tuple(_probes(suspect, profile)) for suspect in suspects)


def _probes(suspect: Suspect, profile: Profile) -> Iterator[Probing]:
    first_of: dict[str, str] = {}
    for name in suspect.faults:
        first_of.setdefault(parsed(name).where, name)
    for name in list(first_of.values())[:PROBED]:
        probe = _probe(name, profile)
        if probe is not None:
            yield probe


def _probe(name: str, profile: Profile) -> Probing | None:
    probe = probe_of(name, profile)
    if probe is None:
        return key_probe_of(name, profile)
    return probe._replace(meanwhile=f"while {_busy_with(name, profile)}")


def _busy_with(name: str, profile: Profile) -> str:
    """Return what keeps the lines of a fault busy, in words."""
    parts = parsed(name)
    if parts.where in OF_KEYBOARD:
        return "keys are held down one after the other"
    return f"{_sent(parts, profile)} is sent over and over"


def _sent(parts: FaultName, profile: Profile) -> str:
    bus = BUSES.get(parts.where)
    if bus is not None and bus.lines == DATA_LINES and parts.where != "column-counter":
        return f'"{_toggling([int(line) for line in parts.lines.split("-")])}"'
    if bus is None or bus.where not in FULL_SCREEN:
        names = commands_of(parts.lines, profile)
        if parts.where != "decoder":
            names = [parts.where]
        commands = " and ".join(_commands(names, profile))
        return commands or FULL_LINES
    return FULL_LINES


def _commands(names: Sequence[str], profile: Profile) -> Iterator[str]:
    """Yield the bytes of commands of these names, or actions, that need no row, column or count."""
    for command in profile.commands:
        is_meant = str(command.name) in names or command.action in names
        if is_meant and all(isinstance(part, bytes) for part in command.bytes):
            yield f"{show(encode(profile, str(command.name)))} ({command.name})"


def _toggling(lines: Sequence[int]) -> str:
    """Return two characters between which all lines change; of two lines one is always high."""
    mask = sum(1 << line for line in lines)
    wanted = 1 << lines[0]
    for first in PRINTED:
        second = first ^ mask
        if first & mask == wanted and second in PRINTED and chr(first).isalnum():
            return chr(first) + chr(second)
    return "*U"
