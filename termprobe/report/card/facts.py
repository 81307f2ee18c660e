"""What stands on a card, as records from which every format of it is laid out."""

from dataclasses import dataclass
from typing import NamedTuple

from termprobe.report.facts.pictures import ScreenFacts


class CardCaution(NamedTuple):
    """A text to be read before anything is done."""

    number: int
    text: str
    where: tuple[str, ...]
    """Titles of the stages that it holds for."""


class CardCode(NamedTuple):
    """A code that is no character, and how it is typed."""

    name: str
    hexadecimal: str
    pressed: str
    """Empty where no key of the board sends it."""


class CardKey(NamedTuple):
    """A press and what must come of it."""

    number: str
    do: str
    """What is to be set before it; mostly nothing."""
    pressed: str
    sends: str
    hexadecimal: str


@dataclass(frozen=True)
class CardStep:
    """An item that has room of its own."""

    number: str
    title: str
    do: tuple[str, ...]
    """What is to be done before the bytes are sent, a sentence each."""
    sent: str
    """The bytes, in the notation; empty where none are sent."""
    sent_in_words: str
    """How many, and whether they can be typed in local mode."""
    question: str
    must: tuple[str, ...]
    """What must come or be read, a sentence each."""
    stop_if: str
    screen: ScreenFacts | None
    beside: tuple[str, ...]
    """What its characters do not show: cursor, renditions, bells."""
    drawn: tuple[str, ...]
    """The screen as lines of text, with its row and column numbers."""
    dots: tuple[str, ...]
    """Characters dot by dot, as they must be."""
    is_reading: bool
    """Whether a number is written down, and no box ticked."""


@dataclass(frozen=True)
class CardStage:
    """A chapter."""

    title: str
    cautions: tuple[int, ...]
    do: tuple[str, ...]
    """What holds for all that follows in it."""
    steps: tuple[CardStep, ...]
    keys: tuple[CardKey, ...]


@dataclass(frozen=True)
class Card:
    """All that is printed."""

    title: str
    terminal: str
    script: str
    plan_hash: str
    line: str
    """Speed and frame in words."""
    cautions: tuple[CardCaution, ...]
    codes: tuple[CardCode, ...]
    stages: tuple[CardStage, ...]
    left_off: tuple[str, ...]
    """Titles of the steps that take a computer on the line."""

    @property
    def plan(self) -> str:
        """Which plan it is made of, as a form says."""
        return self.plan_hash[:12]
