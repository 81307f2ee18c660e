"""What only the whole of a profile can show: values out of range, and words that name nothing in it.

Each check takes a part of the profile and the findings. A part that is already known to be wrong stops its check alone.
"""

import dataclasses
import re

from termprobe.findings import called, forget, nearest, quoted, try_check
from termprobe.profile.check_commands import check_commands
from termprobe.profile.check_keyboard import check_keyboard
from termprobe.profile.encode import coordinate_bytes
from termprobe.profile.vocabulary import BUS_LINES

RANGES = {
    "Display": {"rows": (1, 500), "columns": (1, 500), "tab_stops": (0, 500)},
    "Coordinates": {"offset": (0, 0xFF), "first": (0, 1)},
    "Command": {"settle_ms": (0, 60_000)},
    "Fill": {"count": (1, 10_000), "from_baud": (1, 10_000_000)},
    "LinkNeeds": {
        "speed_baud": (1, 10_000_000),
        "data_bits": (5, 8),
        "stop_bits": (1, 2),
        "character_gap_ms": (0, 60_000),
    },
    "Keyboard": {"rows": (1, 64), "columns": (1, 64)},
    "Key": {"row": (0, 50), "offset": (0, 100), "width": (0.25, 50)},
    "Circuit": {"banks": (1, 2)},
}
"""Record -> field -> lowest and highest value that makes sense."""


def check(profile, findings):
    """Note everything that is wrong with `profile` though each of its values can be read."""
    for record in _records(profile):
        try_check(_check_ranges, record, findings)
        try_check(_check_source, record, findings)
    for part in (
        _check_id,
        _check_printing,
        _check_speeds,
        _check_coordinates,
        _check_options,
        _check_circuit,
        check_commands,
        check_keyboard,
    ):
        try_check(part, profile, findings)


def _records(value):
    """Yield `value` and all records inside it."""
    if dataclasses.is_dataclass(value):
        yield value
        for field in dataclasses.fields(value):
            if field.init:
                yield from _records(getattr(value, field.name))
    elif type(value) is tuple:  # a Template is a tuple too, but holds no records
        for item in value:
            yield from _records(item)


def _check_ranges(record, findings):
    for name, (low, high) in RANGES.get(type(record).__name__, {}).items():
        try_check(_check_range, record, name, low, high, findings)


def _check_range(record, name, low, high, findings):
    value = getattr(record, name)
    if not low <= value <= high:
        findings.add(record.place.of(name), f"{name} must be {low} to {high}, not {value:g}")
        forget(record, name)


def _check_source(record, findings):
    if "source" in record.place.fields and not record.source.strip():
        findings.add(
            record.place.of("source"),
            "source must say where this comes from, or be the word unverified, not be empty",
        )


def _check_id(profile, findings):
    if not re.fullmatch(r"[a-z0-9]+(-[a-z0-9]+)*", str(profile.id)):
        findings.add(
            profile.id, f"id must be small letters and digits joined by -, not {quoted(profile.id)}"
        )


def _check_printing(profile, findings):
    printing = profile.display.printing
    highest = (1 << profile.link.data_bits) - 1
    if not 0 <= printing.first <= highest:
        findings.add(
            printing.place.of("first"),
            f"first must be a code of 0 to {highest:02X}h, not {printing.first}",
        )
        forget(printing, "first")
    elif not printing.first <= printing.last <= highest:
        findings.add(
            printing.place.of("last"),
            f"last must be a code of {printing.first:02X}h (first) to {highest:02X}h, not {printing.last}",
        )
        forget(printing, "last")


def _check_speeds(profile, findings):
    link = profile.link
    if any(speed < 1 or speed > 10_000_000 for speed in link.speeds_baud):
        findings.add(link.place.of("speeds_baud"), "speeds_baud must be 1 to 10,000,000 each")
    if link.speed_baud not in link.speeds_baud:
        speeds = ", ".join(str(speed) for speed in link.speeds_baud)
        findings.add(
            link.place.of("speed_baud"),
            f"speed_baud must be one of speeds_baud ({speeds}), not {link.speed_baud}",
        )


def _check_coordinates(profile, findings):
    coordinates, display = profile.coordinates, profile.display
    if coordinates is None:
        return
    if coordinates.offset and coordinates.coding != "offset":
        findings.add(
            coordinates.place.of("offset"),
            f"offset must be left out with the coding {coordinates.coding}",
        )
        return
    highest = max(display.rows, display.columns) - 1
    try:
        fits = max(coordinate_bytes(coordinates, highest)) < 1 << profile.link.data_bits
    except ValueError:
        fits = False
    if not fits:
        bits = profile.link.data_bits
        findings.add(
            coordinates.place,
            f"coordinates must reach {highest}, the last column or row, in {bits} data bits",
        )


def _check_options(profile, findings):
    seen = set()
    for option in profile.options:
        try_check(_check_option_name, option, seen, findings)
        try_check(_check_option, option, findings)


def _check_option_name(option, seen, findings):
    if option.name in seen:
        findings.add(option.name, f"each option must stand once, not {quoted(option.name)} again")
    seen.add(option.name)


def _check_option(option, findings):
    name = called(option, "the option")
    if len(set(option.positions)) < max(2, len(option.positions)):
        findings.add(
            option.place.of("positions"), f"positions of {name} must be two or more different words"
        )
        forget(option, "positions")
    if option.normal not in option.positions:
        positions = ", ".join(option.positions)
        findings.add(
            option.normal,
            f"normal must be a position of {name} ({positions}), "
            f"not {quoted(option.normal)}{nearest(option.normal, option.positions)}",
        )


def _check_circuit(profile, findings):
    if profile.circuit is None:
        return
    for role in ("echo", "local"):
        try_check(_check_role, profile, role, findings)
    for bus, labels in profile.circuit.labels.items():
        if bus not in BUS_LINES:
            findings.add(
                bus,
                f"labels must be of one of {', '.join(BUS_LINES)}, not {quoted(bus)}{nearest(bus, BUS_LINES)}",
            )
        elif len(labels) != BUS_LINES[bus]:
            findings.add(
                bus, f"labels of {bus} must be {BUS_LINES[bus]}, line 0 first, not {len(labels)}"
            )


def _check_role(profile, role, findings):
    """Check that `echo_option` and `echo_position`, or those of `local`, name an option and a position of it."""
    circuit = profile.circuit
    name, position = getattr(circuit, f"{role}_option"), getattr(circuit, f"{role}_position")
    options = {option.name: option for option in reversed(profile.options)}
    if name and name not in options:
        findings.add(
            name,
            f"{role}_option must be an option of this profile, not {quoted(name)}{nearest(name, options)}",
        )
    elif name and position not in options[name].positions:
        positions = options[name].positions
        text = f"{role}_position must be a position of {name} ({', '.join(positions)}), not {quoted(position)}"
        findings.add(circuit.place.of(f"{role}_position"), text + nearest(position, positions))
