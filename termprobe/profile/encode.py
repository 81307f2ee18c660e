"""The bytes of a command: its template with row, column and count written in."""

from termprobe.profile.model import Command, Coordinates, Profile


def encode(
    profile: Profile,
    command_name: str,
    row: int | None = None,
    column: int | None = None,
    count: int | None = None,
) -> bytes:
    """Return the bytes that make a board of `profile` carry out the command.

    `row` and `column` count from 0 and may lie outside the screen; `count`, at least 1, is written
    where the command has a slot for it, else the command is repeated that often. Raise ValueError
    where the profile has no such command, a coordinate is missing or not asked for, or a value
    cannot be written.
    """
    command = profile.command(command_name)
    if command is None:
        raise ValueError(f'command must be one of the profile {profile.id}, not "{command_name}"')
    times = 1
    if count is not None:
        times = count
    values = {"count": times}
    if row is not None:
        values["row"] = row
    if column is not None:
        values["column"] = column
    _check_values(command, values)
    data = b"".join(_part_bytes(profile, part, values) for part in command.bytes)
    if "count" in command.bytes.slots:
        return data
    return data * times


def coordinate_bytes(coordinates: Coordinates, value: int) -> bytes:
    """Return the row or column `value`, from 0, as it travels.

    Raise ValueError where the coding cannot say it.
    """
    return _coded(coordinates, value + coordinates.first)


def _check_values(command: Command, values: dict[str, int]) -> None:
    slots = command.bytes.slots
    for slot in ("row", "column"):
        if slot in slots and slot not in values:
            raise ValueError(f"{command.name} must be given a {slot}")
        if slot in values and slot not in slots:
            raise ValueError(f"{command.name} must be given no {slot}, not {values[slot]}")
    if values["count"] < 1:
        raise ValueError(f"count of {command.name} must be at least 1, not {values['count']}")


def _part_bytes(profile: Profile, part: bytes | str, values: dict[str, int]) -> bytes:
    """Return a part of a template, or the value of its slot, as it travels."""
    if isinstance(part, bytes):
        return part
    value = values[part]
    data = _slot_bytes(profile.coordinates, part, value)
    bits = profile.link.data_bits
    if max(data) >= 1 << bits:
        raise ValueError(f"{part} must fit in {bits} data bits, not be {value} ({max(data):02X}h)")
    return data


def _slot_bytes(coordinates: Coordinates | None, slot: str, value: int) -> bytes:
    """Return the bytes of one slot.

    A count is coded like a coordinate, but always counts from 0, and is decimal where the profile
    has no coordinates.
    """
    if coordinates is None:
        return _decimal(value)
    if slot == "count":
        return _coded(coordinates, value)
    return coordinate_bytes(coordinates, value)


def _decimal(number: int) -> bytes:
    return str(number).encode("ascii")


def _coded(coordinates: Coordinates, number: int) -> bytes:
    if number < 0:
        raise ValueError(f"a coordinate must not be negative, not {number}")
    match coordinates.coding:
        case "decimal":
            return _decimal(number)
        case "bcd":
            return _bcd(number)
        case "offset":
            return _byte(number + coordinates.offset, number)
        case "binary":
            return _byte(number, number)


def _bcd(number: int) -> bytes:
    tens, ones = divmod(number, 10)
    if tens > 9:
        raise _too_large(number)
    return bytes([16 * tens + ones])


def _byte(code: int, number: int) -> bytes:
    if not 0 <= code <= 0xFF:
        raise _too_large(number)
    return bytes([code])


def _too_large(number: int) -> ValueError:
    return ValueError(f"a coordinate must fit in one byte, not be {number}")
