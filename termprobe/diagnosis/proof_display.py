"""Rules that prove that a fault between receiver and picture makes no difference.

Each says that what the counters count, what the RAM keeps and what is drawn of it stay in step with
a good board, whatever comes. What RAM holds at power-up is chance, and tells nothing.
"""

from collections.abc import Iterable, Iterator, Sequence
from functools import cache
from typing import NamedTuple

from termprobe.board import decoder
from termprobe.board.decoder import Effect
from termprobe.board.generator import DOT_PARTS, misdrawn_codes
from termprobe.board.memory import BLANK
from termprobe.board.memory_map import BANKS
from termprobe.board.wiring import COUNTERS, DOT_BUSES, Table, address_of
from termprobe.diagnosis.proof import COUNTING, Proof, Rewired
from termprobe.profile.model import Command, Profile

CELL_LINES = frozenset({"ram-address", "bank-0-address", "bank-1-address"})
STORED_LINES = frozenset({"bank-0-data", "bank-1-data", "glyph-address"})
DOT_LINES = frozenset({*DOT_BUSES, *DOT_PARTS})
COUNTS = frozenset(COUNTING + counter for counter in COUNTERS)


class Addressed(NamedTuple):
    """The addresses of the cells of a screen that one bank keeps."""

    formed: Table
    """By the counters."""
    opened: Table
    """What reaches the bank's cells of these, each for each."""


COUNTED_DOWN = {"row-counter": ("up",), "column-counter": ("left",)}
"""For each counter the actions of commands that count it down."""


def _carry_the_same_addresses(changed: Rewired) -> bool:
    """Tell whether every address of the screen comes out as it goes in."""
    return all(formed == opened for formed, opened in _banks_addressed(changed))


def _keep_cells_apart(changed: Rewired) -> bool:
    """Tell whether every cell of the screen is kept in a RAM cell of its own.

    Writing, reading and erasing form the same addresses, and clearing runs through all of them.
    """
    return all(len(set(opened)) == len(formed) for formed, opened in _banks_addressed(changed))


def _banks_addressed(changed: Rewired) -> Iterator[Addressed]:
    """Yield for each bank the addresses of its part of the screen, and what they open in it."""
    display, buses = changed.profile.display, changed.faulty.buses
    for bank in BANKS:
        formed = _addresses(display.rows, display.columns, bank)
        common = _looked_up(formed, buses["ram-address"])
        yield Addressed(formed, _looked_up(common, buses[f"bank-{bank}-address"]))


@cache
def _addresses(rows: int, columns: int, bank: int) -> Table:
    """Return the addresses that the counters form for the cells of a screen that `bank` keeps."""
    return tuple(
        address_of(row, column)
        for row in range(bank, rows, len(BANKS))
        for column in range(columns)
    )


def _looked_up(values: Table, table: Table) -> Table:
    return tuple(map(table.__getitem__, values))


def _carry_stored_codes(changed: Rewired) -> bool:
    """Tell whether every code that can be stored comes out as it goes in."""
    printing = changed.profile.display.printing
    return _pass(changed, STORED_LINES, {BLANK, *range(printing.first, printing.last + 1)})


def _carry_counts(changed: Rewired) -> bool:
    """Tell whether every row and column of the screen comes out as it goes in."""
    display = changed.profile.display
    return _pass(changed, {"row-counter"}, range(display.rows)) and _pass(
        changed, {"column-counter"}, range(display.columns)
    )


def _pass(changed: Rewired, buses: Iterable[str], values: Iterable[int]) -> bool:
    tables = [changed.faulty.buses[name] for name in buses]
    return all(table[value] == value for value in values for table in tables)


def _count_the_same(changed: Rewired) -> bool:
    """Tell whether each counter counts as it should wherever the screen lets it count.

    None is counted beyond the screen, and none down where no command does so.
    """
    sizes = changed.profile.display.rows, changed.profile.display.columns
    return all(_counts_alike(changed, *sized) for sized in zip(COUNTERS, sizes, strict=True))


def _counts_alike(changed: Rewired, counter: str, size: int) -> bool:
    good, faulty = changed.good.counting[counter], changed.faulty.counting[counter]
    if good.up[: size - 1] != faulty.up[: size - 1]:
        return False
    return good.down[1:size] == faulty.down[1:size] or not _is_counted_down(
        changed.profile.commands, counter
    )


def _is_counted_down(commands: Sequence[Command], counter: str) -> bool:
    actions = COUNTED_DOWN[counter]
    return any(command.action in actions or command.edge == "previous-row" for command in commands)


def _decode_alike(changed: Rewired) -> bool:
    """Tell whether each code, in each state of the decoder, does what it should."""
    if not all(_act_alike(changed.profile, *taken) for taken in changed.faulty.decoder.items()):
        return False
    good = decoder.build(changed.profile, changed.good)
    faulty = decoder.build(changed.profile, changed.faulty)
    return [list(map(_deed, codes)) for codes in faulty] == [
        list(map(_deed, codes)) for codes in good
    ]


def _act_alike(profile: Profile, name: str, done: str | None) -> bool:
    """Tell whether the command `done` acts as `name` does, as far as actions tell."""
    should, does = profile.command(name), profile.command(done or "")
    return should is not None and does is not None and should.action == does.action


def _deed(effect: Effect) -> tuple[object, ...]:
    """Return what an effect does, whatever the command is called that does it."""
    done: tuple[object, ...] = ()
    if effect.command is not None:
        done = (effect.command.action, effect.command.edge, effect.command.reply)
    return effect.stores, effect.wanted, effect.next_state, done


def _is_wiped_at_once(changed: Rewired) -> bool:
    """Tell whether each code that is stored as well is gone before anything is drawn.

    Clearing blanks every cell, undoes the scrolling and sets both counters to 0.
    """
    return all(
        effect.command is not None and effect.command.action == "clear" and not effect.wanted
        for effect in _storing_commands(changed)
    )


def _storing_commands(changed: Rewired) -> Iterator[Effect]:
    """Yield what each code does that belongs to a command and is stored all the same."""
    good = decoder.build(changed.profile, changed.good)
    faulty = decoder.build(changed.profile, changed.faulty)
    for good_codes, faulty_codes in zip(good, faulty, strict=True):
        for should, does in zip(good_codes, faulty_codes, strict=True):
            if does.stores and not should.stores:
                yield does


def _draw_alike(changed: Rewired) -> bool:
    """Tell whether every character that can be stored has the dots that it should have."""
    box, printing = changed.profile.display.dots, changed.profile.display.printing
    if box is None or changed.faulty.light:
        return False
    stored = {BLANK, *range(printing.first, printing.last + 1)}
    return stored.isdisjoint(misdrawn_codes(box, changed.faulty))


DISPLAY_PROOFS = (
    Proof(
        CELL_LINES,
        _carry_the_same_addresses,
        "the screen has no row or column for which these lines carry anything else",
    ),
    Proof(
        CELL_LINES,
        _keep_cells_apart,
        "what is written and what is read go over the same lines, and each cell of the screen "
        "still has a RAM cell of its own: both are moved alike",
    ),
    Proof(STORED_LINES, _carry_stored_codes, "no code that can be stored is changed by it"),
    Proof(
        frozenset(COUNTERS),
        _carry_counts,
        "the screen has no row or column for which this line carries anything else",
    ),
    Proof(COUNTS, _count_the_same, "nothing that the terminal does counts there"),
    Proof(DOT_LINES, _draw_alike, "no character that can be stored is drawn otherwise by it"),
    Proof(frozenset({"decoder"}), _decode_alike, "the commands do exactly the same"),
    Proof(
        frozenset({"also_written"}),
        _is_wiped_at_once,
        "the command blanks the whole screen and sets the cursor home before anything is drawn, "
        "and what its code has left goes with it",
    ),
)
