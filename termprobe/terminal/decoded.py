"""What bytes mean to a terminal: text to be shown, commands, and what it ignores."""

from dataclasses import dataclass

from termprobe.profile.model import Command


@dataclass(frozen=True, slots=True)
class Printable:
    """Printable codes, each to be stored at the cursor."""

    text: str


@dataclass(frozen=True, slots=True)
class Decoded:
    """A command received whole. Row and column count from 0 and may lie outside the screen."""

    command: Command
    row: int | None = None
    """None where the coding has no row."""
    column: int | None = None
    """None where the coding has no column."""
    count: int = 1


@dataclass(frozen=True, slots=True)
class Ignored:
    """Codes that the profile gives no meaning, at most LIMIT (decoder.py) of them."""

    codes: bytes


Meaning = Printable | Decoded | Ignored
