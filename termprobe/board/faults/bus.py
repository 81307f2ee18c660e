"""Faults of the buses and counters of the board: lines stuck, swapped, bridged, carries lost."""

from collections.abc import Callable, Iterator
from functools import cache, partial
from itertools import combinations

from termprobe.board.faults.model import Edit, Fault, make
from termprobe.board.wiring import (
    BORROW_LOST,
    BRIDGED,
    BUSES,
    CARRY_LOST,
    CHIP_LINES,
    DOT_BUSES,
    KEYBOARD_CODE,
    STUCK,
    SWAPPED,
    Bus,
    Table,
    Wiring,
)
from termprobe.profile.model import Profile

OF_OTHER_FAMILIES = (KEYBOARD_CODE.where, *DOT_BUSES)
BLOCKS = tuple(where for where in BUSES if where not in OF_OTHER_FAMILIES)
STUCK_LEVELS = (0, 1)
WINNERS = ("low", "high")
SHORTED = ("wired-AND", "wired-OR")
"""What two lines that touch carry, where low wins and where high does."""
"""Word for each level that lines which touch can carry."""


def faults(profile: Profile) -> Iterator[Fault]:
    """Yield every fault of every bus of the family."""
    for where in BLOCKS:
        yield from faults_of_bus(where, profile)


def faults_of_bus(where: str, profile: Profile, lines: int | None = None) -> Iterator[Fault]:
    """Yield every fault of the bus called `where` in BUSES; of its first `lines` where given."""
    bus = BUSES[where]
    bus = bus._replace(lines=lines or bus.lines)
    words = line_words(bus, profile)
    if STUCK in bus.kinds:
        for line in range(bus.lines):
            yield from _stuck_line(bus, line, words[line])
    for first, second in combinations(range(bus.lines), 2):
        both = f"{bus.carries} lines {words[first]} and {words[second]} of {bus.block}"
        if SWAPPED in bus.kinds:
            yield make(
                f"{where}/swapped/{first}-{second}",
                f"{both} are swapped",
                edit_of(bus, swapped, first, second),
            )
        if BRIDGED in bus.kinds:
            yield from _bridged_lines(bus, first, second, both)
    if CARRY_LOST in bus.kinds:
        yield from _lost_carries(bus, words)


def line_words(bus: Bus, profile: Profile) -> list[str]:
    """Return what a title calls each line: its number, and its label where the profile has one."""
    words = [str(line) for line in range(bus.lines)]
    if profile.circuit is None:
        return words
    labels = {str(where): lines for where, lines in profile.circuit.labels.items()}
    for line, label in enumerate(labels.get(bus.where, ())[: bus.lines]):
        words[line] = f"{line} ({label})"
    return words


def _stuck_line(bus: Bus, line: int, word: str) -> Iterator[Fault]:
    for level in STUCK_LEVELS:
        yield make(
            f"{bus.where}/stuck/{line}/{level}",
            f"{bus.carries} line {word} of {bus.block} is stuck at {level}",
            edit_of(bus, stuck, line, level),
        )


def _bridged_lines(bus: Bus, first: int, second: int, both: str) -> Iterator[Fault]:
    for level in STUCK_LEVELS:
        winner = WINNERS[level]
        yield make(
            f"{bus.where}/bridged/{first}-{second}/{winner}",
            f"{both} are shorted ({SHORTED[level]})",
            edit_of(bus, bridged, first, second, level),
        )


def _lost_carries(bus: Bus, words: list[str]) -> Iterator[Fault]:
    """Yield what a counter of several chips can lose on the way into its second one, or in it."""
    for line in range(CHIP_LINES, bus.lines):
        into = f"into output line {words[line]} of {bus.block}"
        yield make(
            f"{bus.where}/{CARRY_LOST}/{line}",
            f"the carry {into} is lost: counting up, it and all above it stay",
            partial(_lose_carry, bus.where, line),
        )
        yield make(
            f"{bus.where}/{BORROW_LOST}/{line}",
            f"the borrow {into} is lost: counting down, it and all above it stay",
            partial(_lose_borrow, bus.where, line),
        )


def _lose_carry(where: str, line: int, wiring: Wiring) -> None:
    healthy = wiring.counting[where]
    wiring.counting[where] = healthy._replace(up=_kept_from(line, healthy.up))


def _lose_borrow(where: str, line: int, wiring: Wiring) -> None:
    healthy = wiring.counting[where]
    wiring.counting[where] = healthy._replace(down=_kept_from(line, healthy.down))


def _kept_from(line: int, counted: Table) -> Table:
    """Return `counted`, value by value, with the bits from `line` on as they were before."""
    low = (1 << line) - 1
    return tuple(after & low | before & ~low for before, after in enumerate(counted))


def edit_of(bus: Bus, change: Callable[..., int], *lines_and_level: int) -> Edit:
    """Return the edit that lets what leaves `bus` go through change(value, *lines_and_level)."""

    def edit(wiring: Wiring) -> None:
        changed = _changed(BUSES[bus.where].lines, change, *lines_and_level)
        wiring.lead_through(bus.where, changed)

    return edit


@cache
def _changed(lines: int, change: Callable[..., int], *lines_and_level: int) -> Table:
    """Return what comes of each value of so many lines."""
    return tuple(change(value, *lines_and_level) for value in range(1 << lines))


def stuck(value: int, line: int, level: int) -> int:
    """Return `value` as it leaves a bus whose `line` is held at `level`."""
    if level:
        return value | 1 << line
    return value & ~(1 << line)


def swapped(value: int, first: int, second: int) -> int:
    """Return `value` as it leaves a bus whose two lines are swapped."""
    differs = (value >> first ^ value >> second) & 1
    return value ^ (differs << first | differs << second)


def bridged(value: int, first: int, second: int, level: int) -> int:
    """Return `value` as it leaves a bus whose lines touch: both carry `level` if either does."""
    first_bit, second_bit = value >> first & 1, value >> second & 1
    carried = first_bit & second_bit
    if level:
        carried = first_bit | second_bit
    return stuck(stuck(value, first, carried), second, carried)
