"""What the decoder looks up: the codings of a profile's commands, compiled once."""

import re
from collections.abc import Iterable
from dataclasses import dataclass
from typing import NamedTuple

from termprobe.profile.model import Command, Coordinates
from termprobe.terminal.decoded import Decoded, Ignored, Meaning

LARGEST = 9999
"""Larger numbers in decimal digits count as this one; no screen and no count needs more."""
SEVERAL = b"hlmW"
"""Final bytes of the functions that take any number of selective parameters: SM, RM, SGR, CTC
(ECMA-48 8.3.125, 8.3.106, 8.3.117, 8.3.17). All others take as many as their clause names."""
_NO_COORDINATE = -1
_SEQUENCE = re.compile(
    rb"\x1b\[(?P<private>[<-?]?)(?P<numbers>[0-9:;]*)(?P<intermediate>[ -/]*)(?P<final>[@-~])"
)  # ECMA-48 5.4


class CodeNode:
    """What may follow some codes of commands that are no control sequences."""

    __slots__ = ("after", "decoded", "number", "slots")

    def __init__(self) -> None:
        self.after: dict[int, CodeNode] = {}
        """Next code: the CodeNode that it leads to."""
        self.number: CodeNode | None = None
        """The CodeNode behind a coordinate or count that comes here, or None."""
        self.decoded: Decoded | None = None
        """The command that is complete here, its slots not yet filled in, or None."""
        self.slots: tuple[str, ...] = ()
        """What the numbers received on the way here stand for."""


class Sequence(NamedTuple):
    """A control sequence of ECMA-48."""

    parameters: tuple[int | str, ...]
    """For each the number that it must be, or the slot that it fills."""
    command: Command

    def received(self, numbers: list[int | None]) -> Iterable[tuple[int | str, int | None]]:
        """Return each parameter with the number that came for it; None where none did."""
        missing = [None] * (len(self.parameters) - len(numbers))
        return zip(self.parameters, [*numbers, *missing], strict=False)

    def fits(self, numbers: list[int | None]) -> bool:
        """Tell whether the received numbers are those that the sequence demands.

        A missing one is 0, the default value of every selective parameter here (ECMA-48 5.4.2).
        """
        return all(
            isinstance(wanted, str) or wanted == (number or 0)
            for wanted, number in self.received(numbers)
        )


@dataclass(frozen=True)
class Tables:
    """All that the decoder looks up."""

    is_ecma48: bool
    coordinates: Coordinates
    root: CodeNode
    sequences: dict[bytes, tuple[Sequence, ...]]
    """Private prefix, intermediate bytes and final byte: the sequences, those with most fixed
    numbers first."""

    def coordinate(self, code: int) -> int:
        """Return the number that one code stands for.

        It is below every coordinate where the code is no number of the coding.
        """
        match self.coordinates.coding:
            case "bcd":
                return _from_bcd(code)
            case "offset":
                return code - self.coordinates.offset
            case _:
                return code

    def filled(self, command: Command, numbers: Iterable[tuple[str, int | None]]) -> Decoded:
        """Return `command` with the received numbers, each beside its slot, written in."""
        values = {slot: self._value(slot, number) for slot, number in numbers}
        return Decoded(command, values.get("row"), values.get("column"), values.get("count", 1))

    def _value(self, slot: str, number: int | None) -> int:
        """Return what a received number means for `slot`.

        A number left out (None) is the first row or column, or once. A count is at least 0: a code
        that is no number of the coding counts nothing.
        """
        if slot == "count":
            if number is None:
                return 1
            return max(number, 0)
        if number is None:
            return 0
        return number - self.coordinates.first

    def control_sequence(self, codes: bytes) -> tuple[Meaning, ...]:
        """Return the events of a whole control sequence, from ESC [ to its final byte."""
        parts = _SEQUENCE.fullmatch(codes)
        if parts is None or b":" in parts["numbers"]:
            # ECMA-48 5.4.2 b: sub-strings in parts, which no command declares.
            return (Ignored(codes),)
        key = parts["private"] + parts["intermediate"] + parts["final"]
        entries = self.sequences.get(key, ())
        numbers = [_number(digits) for digits in parts["numbers"].split(b";")]
        groups = [numbers]
        if parts["final"] in SEVERAL:
            groups = [[number] for number in numbers]
        return tuple(self._decoded(entries, group) or Ignored(codes) for group in groups)

    def _decoded(self, entries: tuple[Sequence, ...], numbers: list[int | None]) -> Decoded | None:
        """Return the command for the numbers received, or None.

        More numbers than the sequence has are left alone (common practice), unless another sequence
        has as many.
        """
        fitting = [entry for entry in entries if entry.fits(numbers)]
        if not fitting:
            return None
        best = min(fitting, key=lambda entry: len(entry.parameters) < len(numbers))
        # ECMA-48 5.4.2: an empty parameter is the default value; that 0 is too, is common practice.
        received = best.received(numbers)
        slots = [(slot, number or None) for slot, number in received if isinstance(slot, str)]
        return self.filled(best.command, slots)


def _number(digits: bytes) -> int | None:
    """Return the number that is written in decimal digits, or None where it was left out."""
    if not digits:
        return None
    return min(int(digits), LARGEST)


def _from_bcd(code: int) -> int:
    tens, ones = divmod(code, 16)
    if tens > 9 or ones > 9:
        return _NO_COORDINATE
    return 10 * tens + ones
