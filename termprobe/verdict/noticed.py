"""What is noticed when a key is pressed.

It is its code, another key's, a bounce, a repeat, nothing, or an error of the line. Each is a
record of its kind with its values; report/press_words.py puts it into words.
"""

from collections.abc import Iterable
from dataclasses import dataclass
from typing import ClassVar


@dataclass(frozen=True)
class Code:
    """A code that came, and whose it is."""

    data: bytes
    names: tuple[str, ...] = ()
    """The presses that send it: `key "Q" with SHIFT`; empty where no key does."""


@dataclass(frozen=True)
class Noticed:
    """One thing that was noticed of a press.

    Where a code is wanted, empty bytes stand for a break.
    """

    kind: ClassVar[str]

    @property
    def fails(self) -> bool:
        """Whether the board did something wrong."""
        return True


@dataclass(frozen=True)
class Right(Noticed):
    """What was wanted came."""

    kind = "right"
    code: bytes

    @property
    def fails(self) -> bool:
        """Nothing is wrong."""
        return False


@dataclass(frozen=True)
class WrongCode(Noticed):
    """Other codes came."""

    kind = "wrong-code"
    came: tuple[Code, ...]
    wanted: bytes
    is_chord: bool = False
    """Several keys were held: some did not send their codes, and others came."""


@dataclass(frozen=True)
class EighthBit(Noticed):
    """The code came with its eighth bit set."""

    kind = "eighth-bit"
    came: bytes
    wanted: bytes


@dataclass(frozen=True)
class Several(Noticed):
    """Different codes came at once."""

    kind = "several"
    others: tuple[Code, ...]
    """Those that were not wanted."""
    wanted: bytes
    has_wanted: bool
    """The wanted one was among them."""
    is_chord: bool = False
    """Several keys were held: each should have sent its code, and no other."""


@dataclass(frozen=True)
class Bounce(Noticed):
    """The same code came again at once: the contact bounces."""

    kind = "bounce"
    code: bytes
    count: int
    apart_ms: float


@dataclass(frozen=True)
class Extra(Noticed):
    """More came than was wanted: the code again, or more breaks than one.

    Where it is the code, the line is too slow to tell a bounce.
    """

    kind = "extra"
    code: bytes
    count: int
    speed_baud: float = 0.0


@dataclass(frozen=True)
class Repeat(Noticed):
    """The code came again later, as a key that is held repeats it."""

    kind = "repeat"
    code: bytes
    count: int
    after_ms: float
    is_allowed: bool

    @property
    def fails(self) -> bool:
        """A key that should not repeat did."""
        return not self.is_allowed


@dataclass(frozen=True)
class Missing(Noticed):
    """Nothing came, or of a chord not all."""

    kind = "missing"
    wanted: bytes
    of_chord: tuple[Code, ...] = ()
    """The codes that did not come, though others did."""


@dataclass(frozen=True)
class OnRelease(Noticed):
    """More came so late that it is of the key's release."""

    kind = "on-release"
    others: tuple[Code, ...]
    """Codes other than the wanted one; empty where that came again."""
    wanted: bytes
    after_ms: float


@dataclass(frozen=True)
class Break(Noticed):
    """A break came that nobody wanted."""

    kind = "break"
    wanted: bytes


@dataclass(frozen=True)
class LineError(Noticed):
    """The port reports that a character was received wrongly."""

    kind = "line-error"
    error: str
    """framing, parity, overrun, or another word of the port."""
    data: bytes


@dataclass(frozen=True)
class Rate:
    """How often a contact works."""

    came: int
    of: int
    """Presses."""

    @property
    def is_flaky(self) -> bool:
        """Whether it works at times only."""
        return 0 < self.came < self.of


def with_one_more(rate: Rate, noticed: Iterable[Noticed]) -> Rate:
    """Return the Rate with one more press of the same key, of which that was noticed."""
    is_missing = any(isinstance(one, Missing) for one in noticed)
    return Rate(rate.came + (not is_missing), rate.of + 1)
