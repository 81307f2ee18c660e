"""The names of faults and of other causes: WHERE/KIND/LINES/VALUE, as far as they apply."""

from typing import NamedTuple


class FaultName(NamedTuple):
    """The parts of a name; what a name leaves out is empty."""

    where: str
    """The block of the circuit, or `host` and `profile` for causes outside the board."""
    kind: str = ""
    lines: str = ""
    value: str = ""

    def __str__(self) -> str:
        return "/".join(part for part in self if part)


def parsed(name: str) -> FaultName:
    """Return the parts of `name`: `bank-1-data/stuck/3/0` is of kind `stuck`."""
    return FaultName(*name.split("/", 3))
