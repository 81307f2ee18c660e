"""Faults of the command decoder, and parts of functions that are missing."""

from functools import partial
from itertools import combinations, permutations

from termprobe.board.faults.model import make


def decoder_faults(profile):
    """Yield every fault of the decoder; commands in the order of the profile."""
    commands = [str(command.name) for command in profile.commands if command.action != "ignore"]
    for command in commands:
        yield make(
            f"decoder/dead/{command}",
            f"the command {command} is not obeyed",
            partial(_decode, {command: None}),
        )
        yield make(
            f"decoder/also-written/{command}",
            f"the command {command} is obeyed, and its code stored as well",
            partial(_write_too, command),
        )
    for first, second in permutations(commands, 2):
        yield make(
            f"decoder/acts-as/{first}-{second}",
            f"the command {first} is taken for {second}",
            partial(_decode, {first: second}),
        )
    for first, second in combinations(commands, 2):
        yield make(
            f"decoder/swapped/{first}-{second}",
            f"the commands {first} and {second} are taken for each other",
            partial(_decode, {first: second, second: first}),
        )


def _decode(changed, wiring):
    wiring.decoder = {name: changed.get(done, done) for name, done in wiring.decoder.items()}


def _write_too(command, wiring):
    wiring.also_written.add(command)


def _wraps(profile):
    return profile.display.printing.last_column != "overwrite"


def _scrolls(profile):
    return profile.display.printing.last_row == "scroll" or any(
        command.edge == "scroll" for command in profile.commands
    )


def _has(*actions):
    return lambda profile: any(command.action in actions for command in profile.commands)


PARTS = (
    ("margin/no-wrap", _wraps, "after the last column the cursor stays there"),
    (
        "margin/column-kept",
        _wraps,
        "after the last column the row is counted up, but the column is not set to 0",
    ),
    (
        "margin/row-kept",
        _wraps,
        "after the last column the column is set to 0, but the row is not counted up",
    ),
    ("scroll/dead", _scrolls, "nothing moves where the screen should scroll"),
    ("scroll/line-not-cleared", _scrolls, "the row that scrolls in is not blanked"),
    (
        "clear/bank-0-skipped",
        _has("clear", "erase-display"),
        "clearing the screen does not reach RAM bank 0",
    ),
    (
        "clear/bank-1-skipped",
        _has("clear", "erase-display"),
        "clearing the screen does not reach RAM bank 1",
    ),
    ("clear/no-home", _has("clear"), "clearing the screen does not move the cursor home"),
    ("home/row-kept", _has("home"), "home does not set the row to 0"),
    ("home/column-kept", _has("home"), "home does not set the column to 0"),
    ("address/row-ignored", _has("address", "address-row"), "addressing does not load the row"),
    (
        "address/column-ignored",
        _has("address", "address-column"),
        "addressing does not load the column",
    ),
    (
        "address/exchanged",
        _has("address"),
        "addressing loads the row with the column, and the column with the row",
    ),
)
"""Name, which profiles have the function, and what is seen. termprobe/board asks for these names in Wiring.missing."""


def part_faults(where, profile):
    """Yield the faults of one function: margin, scroll, clear, home or address."""
    for name, applies, title in PARTS:
        if name.startswith(f"{where}/") and applies(profile):
            yield make(name, title, partial(_leave_out, name))
    if where == "address" and _has("address", "address-row", "address-column")(profile):
        for offset in (-1, 1):
            yield make(
                f"address/offset/{offset:+d}",
                f"an address lands {abs(offset)} too {'low' if offset < 0 else 'high'} "
                "in row and column",
                partial(_shift, offset),
            )


def _leave_out(name, wiring):
    wiring.missing.add(name)


def _shift(offset, wiring):
    wiring.address_offset += offset
