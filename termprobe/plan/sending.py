"""What a step sends: fragments of a script become groups of bytes.

The commands and margins of a profile say how.
"""

import re
from collections.abc import Sequence

from termprobe.findings import Place, nearest
from termprobe.plan.model import Group
from termprobe.plan.patterns import PATTERNS
from termprobe.profile.encode import encode
from termprobe.profile.model import Command, Profile
from termprobe.script.model import Fragment

_PARAMETERS = re.compile(rb"(?<=\x1b\[)[0-9;]+(?=[ -/]*[@-~])")
"""The parameters of a control sequence (ECMA-48 5.4)."""

MOST_BYTES = 250_000
"""As many as the largest screen has cells, in one fragment."""


class NotFittedError(Exception):
    """The profile lacks something that the step is about."""


class ScriptError(Exception):
    """The script asks for something that no profile could do; args: what must be."""

    place: Place | None = None
    """Where in the script the fragment stands that asks for it, where one does."""


def command_group(
    profile: Profile,
    name: str,
    row: int | None = None,
    column: int | None = None,
    count: int | None = None,
    short: bool = False,
) -> Group:
    """Return the Group of one command, in its shortest form where that is asked for.

    Raises NotFittedError where the profile does not declare it.
    """
    command = profile.command(name)
    if command is None:
        raise NotFittedError(f"profile {profile.id} declares no command {name}")
    try:
        data = encode(profile, name, row=row, column=column, count=count)
    except ValueError as error:
        if _can_be_asked_for(profile, command, row, column):
            raise NotFittedError(f"profile {profile.id} cannot say it: {error}") from None
        raise ScriptError(str(error)) from None
    if short and profile.grammar == "ecma48":
        data = _shortened(command, data)
    times = count or 1
    where = ", ".join(str(number) for number in (row, column) if number is not None)
    words = [name, where, *_times(times)]
    waits = 1 if "count" in command.bytes else times
    return coded_group(profile, command, data, " ".join(filter(None, words)), waits)


def coded_group(
    profile: Profile, command: Command, data: bytes, label: str, waits: int = 1
) -> Group:
    """Return the Group of `data`, which codes `command`, with the fill or pause that it needs."""
    fill = command.fill
    if fill and profile.link.speed_baud >= fill.from_baud:
        data += fill.code * fill.count
    return Group(data, label, command.settle_ms / 1000 * waits)


def _shortened(command: Command, data: bytes) -> bytes:
    """Return control sequences without the parameters at their end that have the default value.

    That is 1 for a number and 0 for a choice (ECMA-48 5.4.2, and 8.3 clause by clause).
    """
    default = b"0"
    if command.bytes.slots:
        default = b"1"

    def shortened(match: re.Match[bytes]) -> bytes:
        kept = match[0].split(b";")
        while kept and kept[-1] == default:
            kept.pop()
        return b";".join(kept)

    return _PARAMETERS.sub(shortened, data)


def _can_be_asked_for(
    profile: Profile, command: Command, row: int | None, column: int | None
) -> bool:
    """Return whether row and column are given just where the command has a slot for them.

    Those given must be on the screen.
    """
    sizes = {"row": profile.display.rows, "column": profile.display.columns}
    given = {"row": row, "column": column}
    return all(_fits(given[slot], size, slot in command.bytes) for slot, size in sizes.items())


def _fits(number: int | None, size: int, has_slot: bool) -> bool:
    if number is None:
        return not has_slot
    return has_slot and 0 <= number < size


def groups_of(profile: Profile, fragment: Fragment) -> list[Group]:
    """Return the Groups of one fragment but a probe; raise NotFittedError or ScriptError."""
    if fragment.command is not None:
        row, column = cell_of(profile, fragment)
        name, times, short = str(fragment.command), fragment.times, fragment.short
        return [command_group(profile, name, row, column, times, short)]
    if fragment.pattern is not None:
        return _pattern_groups(profile, str(fragment.pattern), fragment.with_)
    if fragment.bytes is not None:
        return [_repeated("bytes", bytes(fragment.bytes), fragment.times)]
    times = fragment.times
    if fragment.rows is not None:
        times = fragment.rows * profile.display.columns
    return [text_group(fragment.text or "", times)]


def text_group(text: str, times: int = 1) -> Group:
    """Return the Group of printable ASCII characters; raise ScriptError where too many."""
    return _repeated("text", text.encode("ascii"), times)


def _repeated(label: str, data: bytes, times: int) -> Group:
    length = len(data) * times
    if length > MOST_BYTES:
        raise ScriptError(f"{label} must send at most {MOST_BYTES:,} bytes, not {length:,}")
    return Group(data * times, " ".join([label, *_times(times)]))


def _times(times: int) -> list[str]:
    return [f"x {times}"] if times > 1 else []


def cell_of(profile: Profile, fragment: Fragment) -> tuple[int | None, int | None]:
    """Return (row, column) of the fragment, each None where it is not given.

    Negative numbers count from the last.
    """
    sizes = profile.display.rows, profile.display.columns
    given = zip(fragment.at, sizes, strict=False)
    counted = [number + size if number < 0 else number for number, size in given]
    row, column = [*counted, None, None][:2]
    return row, column


def _pattern_groups(profile: Profile, name: str, argument: str | None) -> list[Group]:
    if name not in PATTERNS:
        words = f'pattern must be one of {", ".join(PATTERNS)}, not "{name}"'
        raise ScriptError(words + nearest(name, PATTERNS))
    display = profile.display
    try:
        rows = PATTERNS[name].draw(display.rows, display.columns, argument)
    except (TypeError, ValueError, IndexError):
        given = "nothing"
        if argument:
            given = f'"{argument}"'
        words = f"with must be an argument that pattern {name} can use, not {given}"
        raise ScriptError(words) from None
    return fill_groups(profile, rows, " ".join(filter(None, (name, argument))))


def fill_groups(profile: Profile, rows: Sequence[str], label: str) -> list[Group]:
    """Return one Group a row that, sent from home, make the screen show `rows`.

    Full rows follow one another by the margin's own wrap. The last cell is left out where filling
    it would scroll.
    """
    printing, columns = profile.display.printing, profile.display.columns
    rows = list(rows)
    if printing.last_column == "next-row" and printing.last_row != "stay":
        rows[-1:] = [rows[-1][: columns - 1]]
    while rows and not rows[-1].strip():
        rows.pop()
    groups: list[Group] = []
    wraps = False
    for number, row in enumerate(rows):
        text = row.rstrip() or " " * wraps
        wraps = len(text) == columns and printing.last_column != "overwrite"
        data, settle_s = text.encode("ascii"), 0.0
        if not wraps and number < len(rows) - 1:
            onward = [command_group(profile, command) for command in ("return", "down")]
            data += b"".join(group.data for group in onward)
            settle_s = max(group.settle_s for group in onward)
        groups.append(Group(data, f"{label}, row {number}", settle_s))
    return groups
