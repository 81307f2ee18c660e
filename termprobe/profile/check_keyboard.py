"""Checks of a profile's keyboard: names and crossings of its own for each key, and the codes."""

import itertools

from termprobe.findings import Findings, Place, called, quoted, try_check
from termprobe.profile.model import Key, Keyboard, Profile

_TOUCHING = 1e-9
"""Keys that overlap by no more than this stand side by side."""


def check_keyboard(profile: Profile, findings: Findings) -> None:
    """Note everything that is wrong with the keyboard of `profile`."""
    keyboard = profile.keyboard
    if keyboard is None:
        return
    names: set[str] = set()
    crossings: dict[tuple[int, ...], str] = {}
    for key in keyboard.keys:
        try_check(_check_name, key, names, findings)
        try_check(_check_crossing, keyboard, key, crossings, findings)
        try_check(_check_code, profile, key, findings)
    try_check(_check_caps, keyboard, findings)
    try_check(_check_repeat, keyboard, findings)


def _check_name(key: Key, names: set[str], findings: Findings) -> None:
    if not key.name.strip():
        findings.add(key.name, "a key's name must not be empty")
    if key.name in names:
        findings.add(key.name, f"each key must stand once, not {quoted(key.name)} again")
    names.add(key.name)


def _check_crossing(
    keyboard: Keyboard, key: Key, crossings: dict[tuple[int, ...], str], findings: Findings
) -> None:
    """Check where the key stands in the matrix. `crossings`, of the keys before, gets it added."""
    if not key.matrix:
        return
    name = called(key, "the key")
    trouble = _crossing_trouble(keyboard, key.matrix, crossings)
    if trouble:
        findings.add(key.place.of("matrix"), f"matrix of {name} must {trouble}")
    else:
        crossings[key.matrix] = name


def _crossing_trouble(
    keyboard: Keyboard, matrix: tuple[int, ...], crossings: dict[tuple[int, ...], str]
) -> str:
    """Return what the crossing must be and is not, or nothing."""
    if len(matrix) != 2:
        return f"be a row and a column, not {len(matrix)} numbers"
    row, column = matrix
    if not (0 <= row < keyboard.rows and 0 <= column < keyboard.columns):
        rows, columns = f"0 to {keyboard.rows - 1}", f"0 to {keyboard.columns - 1}"
        return f"be a row of {rows} and a column of {columns}, not {row}, {column}"
    if matrix in crossings:
        return f"differ from that of {crossings[matrix]}"
    return ""


def _check_code(profile: Profile, key: Key, findings: Findings) -> None:
    name = called(key, "the key")
    codes = {
        "code": key.code,
        "shift": key.shift,
        "control": key.control,
        "shift_control": key.shift_control,
    }
    written = {state: code for state, code in codes.items() if code is not None}
    if key.role != "code":
        for state in written:
            must = f"{state} of {name} must be left out: its role is {key.role}"
            findings.add(key.place.of(state), must)
        return
    if key.code is None:
        findings.add(key.place, f'{name} must have the key "code", or another role than code')
    for state, code in written.items():
        place = key.place.of(state)
        try_check(_check_bytes, profile, f"{state} of {name}", code, place, findings)


def _check_bytes(
    profile: Profile, what: str, code: bytes | str, place: Place, findings: Findings
) -> None:
    if isinstance(code, str):
        return
    bits = profile.link.data_bits
    if not code or max(code) >= 1 << bits:
        findings.add(place, f"{what} must be one byte or more of {bits} data bits")


def _check_caps(keyboard: Keyboard, findings: Findings) -> None:
    """Note each key that lies over the one to its left."""
    in_rows = sorted(keyboard.keys, key=lambda key: (key.row, key.offset))
    for left, key in itertools.pairwise(in_rows):
        if key.row != left.row:
            continue
        end = left.offset + left.width
        if key.offset < end - _TOUCHING:
            must = f"offset of {key.name} must be at least {end:g}, where {left.name} ends"
            findings.add(key.place.of("offset"), f"{must}, not {key.offset:g}")


def _check_repeat(keyboard: Keyboard, findings: Findings) -> None:
    if keyboard.repeat == "key" and all(key.role != "repeat" for key in keyboard.keys):
        must = "repeat must not be key: no key has the role repeat"
        findings.add(keyboard.place.of("repeat"), must)
