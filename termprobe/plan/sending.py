"""What a step sends: fragments of a script become groups of bytes, by the commands and margins of a profile."""

from termprobe.plan.model import Group
from termprobe.plan.patterns import PATTERNS
from termprobe.profile.encode import encode
from termprobe.yamlfile import nearest


class NotFitted(Exception):
    """The profile lacks something that the step is about."""


class Wrong(Exception):
    """The script asks for something that no profile could do; args: what must be."""

    place = None
    """The Place of the fragment that asks for it, where one does."""


def command_group(profile, name, row=None, column=None, count=None):
    """Return the Group of one command; raise NotFitted where the profile does not declare it."""
    command = profile.command(name)
    if command is None:
        raise NotFitted(f"profile {profile.id} declares no command {name}")
    try:
        data = encode(profile, name, row=row, column=column, count=count)
    except ValueError as error:
        if _is_on_screen(profile, command, row, column):
            raise NotFitted(f"profile {profile.id} cannot say it: {error}") from None
        raise Wrong(str(error)) from None
    fill = command.fill
    if fill and profile.link.speed_baud >= fill.from_baud:
        data += fill.code * fill.count
    where = ", ".join(str(place) for place in (row, column) if place is not None)
    label = " ".join(
        word for word in (name, where, f"x {count}" if count and count > 1 else "") if word
    )
    return Group(
        data, label, command.settle_ms / 1000 * (1 if "count" in command.bytes else count or 1)
    )


def _is_on_screen(profile, command, row, column):
    """Return whether (row, column) is a place that the command could be asked for."""
    slots = {"row": (row, profile.display.rows), "column": (column, profile.display.columns)}
    asked = [
        place is not None and 0 <= place < size if slot in command.bytes else place is None
        for slot, (place, size) in slots.items()
    ]
    return all(asked)


def groups_of(profile, fragment):
    """Return the Groups of one fragment; raise NotFitted or Wrong."""
    if fragment.command is not None:
        row, column = _place(profile, fragment)
        return [command_group(profile, str(fragment.command), row, column, fragment.times)]
    if fragment.pattern is not None:
        return _pattern_groups(profile, fragment)
    data = fragment.bytes if fragment.bytes is not None else fragment.text.encode("ascii")
    label = "bytes" if fragment.bytes is not None else "text"
    return [
        Group(
            bytes(data) * fragment.times,
            label + (f" x {fragment.times}" if fragment.times > 1 else ""),
        )
    ]


def _place(profile, fragment):
    """Return (row, column) of the fragment, each None where it is not given; negative counts from the last."""
    if not fragment.at:
        return None, None
    row, column = (*fragment.at, None)[:2]
    display = profile.display
    return (
        row + display.rows if row < 0 else row,
        column + display.columns if column is not None and column < 0 else column,
    )


def _pattern_groups(profile, fragment):
    if fragment.pattern not in PATTERNS:
        raise Wrong(
            f'pattern must be one of {", ".join(PATTERNS)}, not "{fragment.pattern}"{nearest(fragment.pattern, PATTERNS)}'
        )
    display, name = profile.display, str(fragment.pattern)
    try:
        rows = PATTERNS[name][0](display.rows, display.columns, fragment.with_)
    except (TypeError, ValueError, IndexError):
        raise Wrong(
            f'with must be an argument that pattern {name} can use, not "{fragment.with_}"'
        ) from None
    return fill_groups(profile, rows, f"{name}{f' {fragment.with_}' if fragment.with_ else ''}")


def fill_groups(profile, rows, label):
    """Return one Group a row that, sent from home, make the screen show `rows`.

    Full rows follow one another by the margin's own wrap. The last cell is left out where filling it would scroll.
    """
    printing, columns = profile.display.printing, profile.display.columns
    if printing.last_column == "next-row" and printing.last_row != "stay":
        rows = [*rows[:-1], rows[-1][: columns - 1]]
    while rows and not rows[-1].strip():
        rows = rows[:-1]
    groups, wraps = [], False
    for number, row in enumerate(rows):
        text = row.rstrip() or (" " if wraps else "")
        wraps = len(text) == columns and printing.last_column != "overwrite"
        settle_s = 0.0
        data = text.encode("ascii")
        if not wraps and number < len(rows) - 1:
            onward = [command_group(profile, command) for command in ("return", "down")]
            data += b"".join(group.data for group in onward)
            settle_s = max(group.settle_s for group in onward)
        groups.append(Group(data, f"{label}, row {number}", settle_s))
    return groups
