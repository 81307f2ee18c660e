"""What records are made of, and two of their parts: a screen with faults, and a photo."""

from collections.abc import Mapping
from dataclasses import dataclass, field


@dataclass(frozen=True, kw_only=True)
class Kept:
    """What may get more fields in a later version."""

    more: Mapping[str, object] = field(default_factory=dict)
    """Fields that this version does not know, as JSON holds them: kept, and written again."""


@dataclass(frozen=True)
class ShownWithFaults(Kept):
    """What a board with known faults shows where a good board shows something else."""

    faults: tuple[str, ...]
    """The names of all that were known."""
    rows: tuple[str, ...]
    """U+FFFD in cells of which nothing is known."""
    cursor: tuple[int, int] | None = None
    bells: int = 0
    misdrawn: tuple[tuple[str, str], ...] = ()
    """What is drawn with other dots than a good board's, as in an Answer."""


@dataclass(frozen=True)
class KeptPhoto(Kept):
    """A photo that stands beside the run file: a smaller copy that has nothing but its pixels."""

    name: str
    """Of its file, without a folder."""
    digest: str = ""
    """SHA-256 of its bytes, in hexadecimal."""
    size_bytes: int = 0
    width: int = 0
    """In pixels, and so is the height."""
    height: int = 0
