"""The codings of a profile's commands, compiled once into what the decoder looks up."""

import re
from dataclasses import dataclass
from typing import NamedTuple

from termprobe.notation import show_template
from termprobe.profile.model import Command, Coordinates

ESC = 0x1B
LARGEST = 9999
"""Larger numbers in decimal digits count as this one; no screen and no count needs more."""
SEVERAL = b"hlmW"
"""Final bytes of the functions that take any number of selective parameters: SM, RM, SGR, CTC (ECMA-48 8.3.125,
8.3.106, 8.3.117, 8.3.17). All others take as many as their clause names."""
_SEQUENCE = re.compile(rb"\x1b\[([<-?]?)([0-9:;]*)([ -/]*)([@-~])")  # ECMA-48 5.4
_SLOT = b"\xff"
_CODING = re.compile(rb"\x1b\[([<-?]?)((?:[0-9]*|\xff)(?:;(?:[0-9]*|\xff))*)([ -/]*)([@-~])")
"""The coding of a control sequence, with _SLOT for each slot."""


class Printable(NamedTuple):
    """Printable codes, each to be stored at the cursor."""

    text: str


class Decoded(NamedTuple):
    """A command received whole. Row and column count from 0, may lie outside the screen, and are None where it has none."""

    command: Command
    row: int | None = None
    column: int | None = None
    count: int = 1


class Ignored(NamedTuple):
    """Codes that the profile gives no meaning, at most LIMIT of them."""

    codes: bytes


class Node:
    """A place between the codes of a command that is not a control sequence."""

    __slots__ = ("after", "number", "decoded", "slots")

    def __init__(self):
        self.after = {}
        """Next code: the Node that it leads to."""
        self.number = None
        """The Node behind a coordinate or count that comes here, or None."""
        self.decoded = None
        """The Decoded that is complete here, its slots not yet filled in, or None."""
        self.slots = ()
        """What the coordinates received on the way here stand for."""


class Sequence(NamedTuple):
    """A control sequence of ECMA-48: for each parameter the number that it must be, or the slot that it fills."""

    parameters: tuple[int | str, ...]
    command: Command

    def fits(self, numbers):
        """Tell whether the received numbers are those that the sequence demands; a missing one is 0, the default value of
        every selective parameter here (ECMA-48 5.4.2)."""
        padded = [*numbers, *[None] * len(self.parameters)]
        return all(
            isinstance(wanted, str) or wanted == (number or 0)
            for wanted, number in zip(self.parameters, padded)
        )


@dataclass(frozen=True)
class Tables:
    """All that the decoder looks up."""

    is_ecma48: bool
    coordinates: Coordinates
    root: Node
    sequences: dict[bytes, tuple[Sequence, ...]]
    """Private prefix, intermediate bytes and final byte: the sequences, those with most fixed numbers first."""

    def value(self, slot, number):
        """Return what a received number means for `slot`; a number left out (None) is the first row or column, or once.
        A count is at least 0: a code that is no number of the coding counts nothing."""
        if slot == "count":
            return 1 if number is None else max(number, 0)
        return 0 if number is None else number - self.coordinates.first

    def coordinate(self, code):
        """Return the number that one code stands for; below every coordinate where it is no number of the coding."""
        coding = self.coordinates.coding
        if coding == "bcd":
            tens, ones = divmod(code, 16)
            return 10 * tens + ones if tens < 10 and ones < 10 else -1
        return code - (self.coordinates.offset if coding == "offset" else 0)

    def filled(self, decoded, slots, numbers):
        """Return `decoded` with the received numbers in its slots."""
        return decoded._replace(
            **{slot: self.value(slot, number) for slot, number in zip(slots, numbers)}
        )

    def control_sequence(self, codes):
        """Return the events of a whole control sequence, from ESC [ to its final byte."""
        parts = _SEQUENCE.fullmatch(codes)
        if (
            not parts or b":" in parts[2]
        ):  # ECMA-48 5.4.2 b: sub-strings in parts, which no command declares
            return (Ignored(codes),)
        entries = self.sequences.get(parts[1] + parts[3] + parts[4], ())
        numbers = [min(int(digits), LARGEST) if digits else None for digits in parts[2].split(b";")]
        groups = [[number] for number in numbers] if parts[4] in SEVERAL else [numbers]
        return tuple(self._decoded(entries, group) or Ignored(codes) for group in groups)

    def _decoded(self, entries, numbers):
        """Return the Decoded for the numbers received. More numbers than the sequence has are left alone (common practice),
        unless another sequence has as many."""
        fitting = [entry for entry in entries if entry.fits(numbers)]
        fitting.sort(key=lambda entry: len(entry.parameters) < len(numbers))
        if not fitting:
            return None
        # ECMA-48 5.4.2: an empty parameter is the default value; that 0 is too, is common practice.
        pairs = zip(
            fitting[0].parameters,
            [*(number or None for number in numbers), *[None] * len(fitting[0].parameters)],
        )
        slots = [(wanted, number) for wanted, number in pairs if isinstance(wanted, str)]
        return (
            self.filled(Decoded(fitting[0].command), *zip(*slots))
            if slots
            else Decoded(fitting[0].command)
        )


def compile_tables(profile):
    """Return the Tables of `profile`."""
    is_ecma48 = profile.grammar == "ecma48"
    tables = Tables(is_ecma48, numbering(profile), Node(), {})
    if is_ecma48:
        tables.root.after[ESC] = Node()
    for command in profile.commands:
        for coding in (command.bytes, *command.also):
            if is_ecma48 and coding[0][:2] == b"\x1b[":
                _add_sequence(tables.sequences, coding, command)
            else:
                _add_codes(tables.root, coding, command)
    return tables


def numbering(profile):
    """Return the Coordinates of `profile`; where it has none, numbers are decimal digits and count from 1."""
    return profile.coordinates or Coordinates("decimal", first=1)


def _add_codes(node, coding, command):
    for part in coding:
        if isinstance(part, str):
            node.number = node.number or Node()
            node = node.number
        else:
            for code in part:
                node = node.after.setdefault(code, Node())
    node.decoded = node.decoded or Decoded(command)
    node.slots = tuple(str(part) for part in coding if isinstance(part, str))


def _add_sequence(sequences, coding, command):
    """Note a coding such as ESC "[" row ";" column "H"."""
    slots = [str(part) for part in coding if isinstance(part, str)]
    parts = _CODING.fullmatch(b"".join(_SLOT if isinstance(part, str) else part for part in coding))
    if not parts:
        raise ValueError(
            f"{command.name} must be coded as one control sequence (ECMA-48 5.4), not {show_template(coding)}"
        )
    parameters = tuple(
        slots.pop(0) if field == _SLOT else int(field or b"0") for field in parts[2].split(b";")
    )
    key = parts[1] + parts[3] + parts[4]
    entries = [*sequences.get(key, ()), Sequence(parameters, command)]
    entries.sort(key=lambda entry: sum(isinstance(wanted, str) for wanted in entry.parameters))
    sequences[key] = tuple(entries)
