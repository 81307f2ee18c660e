"""Checks of a profile's keyboard: unique names and places, and a code for each key that should have one."""

from termprobe.findings import called, quoted, try_check


def check_keyboard(profile, findings):
    """Note everything that is wrong with the keyboard of `profile`."""
    keyboard = profile.keyboard
    if keyboard is None:
        return
    names, crossings = set(), {}
    for key in keyboard.keys:
        try_check(_check_name, key, names, findings)
        try_check(_check_crossing, keyboard, key, crossings, findings)
        try_check(_check_code, profile, key, findings)
    try_check(_check_caps, keyboard, findings)
    try_check(_check_repeat, keyboard, findings)


def _check_name(key, names, findings):
    if not key.name.strip():
        findings.add(key.name, "a key's name must not be empty")
    if key.name in names:
        findings.add(key.name, f"each key must stand once, not {quoted(key.name)} again")
    names.add(key.name)


def _check_crossing(keyboard, key, crossings, findings):
    if not key.matrix:
        return
    name, place = called(key, "the key"), key.place.of("matrix")
    if len(key.matrix) != 2:
        findings.add(
            place, f"matrix of {name} must be a row and a column, not {len(key.matrix)} numbers"
        )
    elif not (0 <= key.matrix[0] < keyboard.rows and 0 <= key.matrix[1] < keyboard.columns):
        findings.add(
            place,
            f"matrix of {name} must be a row of 0 to {keyboard.rows - 1} and a column of 0 to "
            f"{keyboard.columns - 1}, not {key.matrix[0]}, {key.matrix[1]}",
        )
    elif key.matrix in crossings:
        findings.add(place, f"matrix of {name} must differ from that of {crossings[key.matrix]}")
    else:
        crossings[key.matrix] = name


def _check_code(profile, key, findings):
    name = called(key, "the key")
    codes = {state: getattr(key, state) for state in ("code", "shift", "control", "shift_control")}
    written = {state: code for state, code in codes.items() if code is not None}
    if key.role != "code":
        for state in written:
            findings.add(
                key.place.of(state), f"{state} of {name} must be left out: its role is {key.role}"
            )
        return
    if key.code is None:
        findings.add(key.place, f'{name} must have the key "code", or another role than code')
    for state, code in written.items():
        try_check(_check_bytes, profile, f"{state} of {name}", code, key.place.of(state), findings)


def _check_bytes(profile, what, code, place, findings):
    if code != "none" and (not code or max(code) >= 1 << profile.link.data_bits):
        findings.add(
            place, f"{what} must be one byte or more of {profile.link.data_bits} data bits"
        )


def _check_caps(keyboard, findings):
    """Note each key that lies over the one to its left."""
    row = left = None
    for key in sorted(keyboard.keys, key=lambda key: (key.row, key.offset)):
        if key.row == row and key.offset < left.offset + left.width - 1e-9:
            findings.add(
                key.place.of("offset"),
                f"offset of {key.name} must be at least {left.offset + left.width:g}, "
                f"where {left.name} ends, not {key.offset:g}",
            )
        row, left = key.row, key


def _check_repeat(keyboard, findings):
    if keyboard.repeat == "key" and all(key.role != "repeat" for key in keyboard.keys):
        findings.add(
            keyboard.place.of("repeat"), "repeat must not be key: no key has the role repeat"
        )
