"""What only the whole of a profile can show: values out of range, words that name nothing in it.

Each check takes a part of the profile and the findings. A part that is already known to be wrong
stops its check alone.
"""

import dataclasses
import re
from collections.abc import Iterator
from typing import NamedTuple

from termprobe.findings import Findings, called, forget, nearest, quoted, try_check
from termprobe.profile import model
from termprobe.profile.check_commands import check_commands
from termprobe.profile.check_dots import bus_lines, check_dots
from termprobe.profile.check_keyboard import check_keyboard
from termprobe.profile.check_options import check_display_options
from termprobe.profile.encode import coordinate_bytes
from termprobe.yamlvalues import Mapped


class Bounds(NamedTuple):
    """The values of one field that make sense."""

    record: type[Mapped]
    field: str
    lowest: float
    highest: float


FASTEST_BAUD = 10_000_000
BOUNDS = (
    Bounds(model.Display, "rows", 1, 500),
    Bounds(model.Display, "columns", 1, 500),
    Bounds(model.Display, "tab_stops", 0, 500),
    Bounds(model.Dots, "columns", 1, 16),
    Bounds(model.Dots, "lines", 1, 16),
    Bounds(model.Coordinates, "offset", 0, 0xFF),
    Bounds(model.Coordinates, "first", 0, 1),
    Bounds(model.Command, "settle_ms", 0, 60_000),
    Bounds(model.Fill, "count", 1, 10_000),
    Bounds(model.Fill, "from_baud", 1, FASTEST_BAUD),
    Bounds(model.LinkNeeds, "speed_baud", 1, FASTEST_BAUD),
    Bounds(model.LinkNeeds, "data_bits", 5, 8),
    Bounds(model.LinkNeeds, "stop_bits", 1, 2),
    Bounds(model.LinkNeeds, "character_gap_ms", 0, 60_000),
    Bounds(model.Keyboard, "rows", 1, 64),
    Bounds(model.Keyboard, "columns", 1, 64),
    Bounds(model.Key, "row", 0, 50),
    Bounds(model.Key, "offset", 0, 100),
    Bounds(model.Key, "width", 0.25, 50),
    Bounds(model.Circuit, "banks", 1, 2),
)


def check(profile: model.Profile, findings: Findings) -> None:
    """Note everything that is wrong with `profile` though each of its values can be read."""
    for record in _records(profile):
        for bounds in BOUNDS:
            try_check(_check_bounds, record, bounds, findings)
        try_check(_check_source, record, findings)
    for part in (
        _check_id,
        _check_printing,
        _check_speeds,
        _check_coordinates,
        _check_options,
        check_display_options,
        check_dots,
        _check_circuit,
        check_commands,
        check_keyboard,
    ):
        try_check(part, profile, findings)


def _records(value: object) -> Iterator[Mapped]:
    """Yield `value` and all records inside it."""
    if isinstance(value, Mapped):
        yield value
        for field in dataclasses.fields(value):
            if field.init:
                yield from _records(getattr(value, field.name))
    elif type(value) is tuple:  # a Template is a tuple too, but holds no records
        for item in value:
            yield from _records(item)


def _check_bounds(record: Mapped, bounds: Bounds, findings: Findings) -> None:
    if not isinstance(record, bounds.record):
        return
    name, lowest, highest = bounds.field, bounds.lowest, bounds.highest
    value: float = getattr(record, name)
    if not lowest <= value <= highest:
        must = f"{name} must be {lowest} to {highest}, not {value:g}"
        findings.add(record.place.of(name), must)
        forget(record, name)


def _check_source(record: Mapped, findings: Findings) -> None:
    source: str = getattr(record, "source", model.UNVERIFIED)
    if not source.strip() and "source" in record.place.fields:
        findings.add(
            record.place.of("source"),
            "source must say where this comes from, or be the word unverified, not be empty",
        )


def _check_id(profile: model.Profile, findings: Findings) -> None:
    if not re.fullmatch(r"[a-z0-9]+(-[a-z0-9]+)*", str(profile.id)):  # str() stops at UNKNOWN
        must = "id must be small letters and digits joined by -"
        findings.add(profile.id, f"{must}, not {quoted(profile.id)}")


def _check_printing(profile: model.Profile, findings: Findings) -> None:
    printing = profile.display.printing
    first, last, place = printing.first, printing.last, printing.place
    highest = (1 << profile.link.data_bits) - 1
    if not 0 <= first <= highest:
        findings.add(place.of("first"), f"first must be a code of 0 to {highest:02X}h, not {first}")
        forget(printing, "first")
    elif not first <= last <= highest:
        allowed = f"{first:02X}h (first) to {highest:02X}h"
        findings.add(place.of("last"), f"last must be a code of {allowed}, not {last}")
        forget(printing, "last")


def _check_speeds(profile: model.Profile, findings: Findings) -> None:
    link = profile.link
    if any(not 1 <= speed <= FASTEST_BAUD for speed in link.speeds_baud):
        must = f"speeds_baud must be 1 to {FASTEST_BAUD:,} each"
        findings.add(link.place.of("speeds_baud"), must)
    if link.speed_baud not in link.speeds_baud:
        speeds = ", ".join(str(speed) for speed in link.speeds_baud)
        must = f"speed_baud must be one of speeds_baud ({speeds}), not {link.speed_baud}"
        findings.add(link.place.of("speed_baud"), must)


def _check_coordinates(profile: model.Profile, findings: Findings) -> None:
    coordinates, display, bits = profile.coordinates, profile.display, profile.link.data_bits
    if coordinates is None:
        return
    if coordinates.offset and coordinates.coding != "offset":
        must = f"offset must be left out with the coding {coordinates.coding}"
        findings.add(coordinates.place.of("offset"), must)
        return
    highest = max(display.rows, display.columns) - 1
    if not _reaches(coordinates, highest, bits):
        must = f"coordinates must reach {highest}, the last column or row, in {bits} data bits"
        findings.add(coordinates.place, must)


def _reaches(coordinates: model.Coordinates, highest: int, data_bits: int) -> bool:
    try:
        data = coordinate_bytes(coordinates, highest)
    except ValueError:
        return False
    return max(data) < 1 << data_bits


def _check_options(profile: model.Profile, findings: Findings) -> None:
    seen: set[str] = set()
    for option in profile.options:
        try_check(_check_option_name, option, seen, findings)
        try_check(_check_option, option, findings)


def _check_option_name(option: model.Option, seen: set[str], findings: Findings) -> None:
    if option.name in seen:
        findings.add(option.name, f"each option must stand once, not {quoted(option.name)} again")
    seen.add(option.name)


def _check_option(option: model.Option, findings: Findings) -> None:
    name, positions, normal = called(option, "the option"), option.positions, option.normal
    if len(set(positions)) < max(2, len(positions)):
        must = f"positions of {name} must be two or more different words"
        findings.add(option.place.of("positions"), must)
        forget(option, "positions")
        return
    if normal not in positions:
        must = f"normal must be a position of {name} ({', '.join(positions)})"
        findings.add(normal, f"{must}, not {quoted(normal)}{nearest(normal, positions)}")


def _check_circuit(profile: model.Profile, findings: Findings) -> None:
    circuit = profile.circuit
    if circuit is None:
        return
    for role in ("echo", "local"):
        try_check(_check_role, profile, circuit, role, findings)
    lines = bus_lines(profile)
    for bus, labels in circuit.labels.items():
        if bus not in lines:
            must = f"labels must be of one of {', '.join(lines)}"
            findings.add(bus, f"{must}, not {quoted(bus)}{nearest(bus, lines)}")
        elif len(labels) != lines[bus]:
            must = f"labels of {bus} must be {lines[bus]}, line 0 first"
            findings.add(bus, f"{must}, not {len(labels)}")


def _check_role(
    profile: model.Profile, circuit: model.Circuit, role: str, findings: Findings
) -> None:
    """Check that `echo_option` and `echo_position`, or those of `local`, name what there is."""
    name: str = getattr(circuit, f"{role}_option")
    position: str = getattr(circuit, f"{role}_position")
    options: dict[str, model.Option] = {option.name: option for option in reversed(profile.options)}
    if not name:
        return
    if name not in options:
        must = f"{role}_option must be an option of this profile"
        findings.add(
            circuit.place.of(f"{role}_option"),
            f"{must}, not {quoted(name)}{nearest(name, options)}",
        )
        return
    positions = options[name].positions
    if position not in positions:
        must = f"{role}_position must be a position of {name} ({', '.join(positions)})"
        findings.add(
            circuit.place.of(f"{role}_position"),
            f"{must}, not {quoted(position)}{nearest(position, positions)}",
        )
