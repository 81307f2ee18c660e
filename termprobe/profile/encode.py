"""The bytes of a command: its template with row, column and count written in."""


def encode(profile, command_name, row=None, column=None, count=None):
    """Return the bytes that make a board of `profile` carry out the command.

    `row` and `column` count from 0 and may lie outside the screen; `count`, at least 1, is written where the command has
    a slot for it, else the command is repeated that often. Raise ValueError where the profile has no such command, a
    coordinate is missing or not asked for, or a value cannot be written.
    """
    command = profile.command(command_name)
    if command is None:
        raise ValueError(f'command must be one of the profile {profile.id}, not "{command_name}"')
    values = {"row": row, "column": column, "count": 1 if count is None else count}
    slots = {part for part in command.bytes if isinstance(part, str)}
    _check_values(command, values, slots)
    parts = [
        part if isinstance(part, bytes) else _slot_bytes(profile, part, values[part])
        for part in command.bytes
    ]
    return b"".join(parts) * (1 if "count" in slots else values["count"])


def coordinate_bytes(coordinates, value):
    """Return the row or column `value`, from 0, as it travels; raise ValueError where the coding cannot say it."""
    return _coded(coordinates, value + coordinates.first)


def _check_values(command, values, slots):
    for slot in ("row", "column"):
        if slot in slots and values[slot] is None:
            raise ValueError(f"{command.name} must be given a {slot}")
        if slot not in slots and values[slot] is not None:
            raise ValueError(f"{command.name} must be given no {slot}, not {values[slot]}")
    if values["count"] < 1:
        raise ValueError(f"count of {command.name} must be at least 1, not {values['count']}")


def _slot_bytes(profile, slot, value):
    """Return the bytes of one slot; a count is coded like a coordinate, but always counts from 0, and is decimal
    where the profile has no coordinates."""
    if profile.coordinates is None:
        data = str(value).encode("ascii")
    else:
        data = (
            _coded(profile.coordinates, value)
            if slot == "count"
            else coordinate_bytes(profile.coordinates, value)
        )
    if max(data) >= 1 << profile.link.data_bits:
        raise ValueError(
            f"{slot} must fit in {profile.link.data_bits} data bits, not be {value} ({max(data):02X}h)"
        )
    return data


def _coded(coordinates, number):
    if number < 0:
        raise ValueError(f"a coordinate must not be negative, not {number}")
    if coordinates.coding == "decimal":
        return str(number).encode("ascii")
    if coordinates.coding == "bcd":
        return _byte(16 * (number // 10) + number % 10 if number <= 99 else 256, number)
    return _byte(number + (coordinates.offset if coordinates.coding == "offset" else 0), number)


def _byte(code, number):
    if not 0 <= code <= 0xFF:
        raise ValueError(f"a coordinate must fit in one byte, not be {number}")
    return bytes([code])
