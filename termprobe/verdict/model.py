"""Verdicts, of a step and of a run. Facts only: report/words.py puts them into words."""

from dataclasses import dataclass

from termprobe.terminal.screen import Difference
from termprobe.verdict.evidence import Evidence
from termprobe.verdict.noticed import Noticed, Rate

PASS, FAIL, UNSURE, DISPUTED = "pass", "fail", "unsure", "disputed"
SKIPPED, BLOCKED, NOT_FITTED, UNANSWERED = "skipped", "blocked", "not-fitted", "unanswered"
INCOMPLETE = "incomplete"


@dataclass(frozen=True)
class Unfitted:
    """This terminal cannot do the step."""

    why: str


@dataclass(frozen=True)
class Blocked:
    """Something that the step needs failed."""

    needs: tuple[str, ...]
    """The step needed, the one that that one needs, and so on to the one that failed."""
    ignored: str = ""
    """The verdict by an answer that was given all the same; it means nothing before that works."""


@dataclass(frozen=True)
class Covered:
    """Looks that show all that the step would have passed."""

    by: tuple[str, ...]


@dataclass(frozen=True)
class Measured:
    """A reading against its limits; `value` is None where nothing was measured."""

    value: float | None
    unit: str
    limits: str
    """In words; empty where there are none."""
    is_inside: bool
    source: str = ""
    unusual: str = ""
    """What is usual, in words, where a reading within the limits is not."""


@dataclass(frozen=True)
class Returned:
    """Bytes that came back against those that must."""

    wanted: bytes
    came: bytes
    form: str = ""
    """In the notation, where only a form must come; `wanted` is then one reply of that form."""


@dataclass(frozen=True)
class Differing:
    """A screen against what it must show; None for what is as it must be, or is not known."""

    cells: int
    cursor: tuple[tuple[int, int], tuple[int, int]] | None = None
    """(row, column) expected, and seen."""
    bells: tuple[int, int] | None = None
    """How often the bell must ring, and rang."""


@dataclass(frozen=True)
class Pressed:
    """What was noticed of the last press of a key, and how its contact works over all presses."""

    noticed: tuple[Noticed, ...]
    rate: Rate


Because = Unfitted | Blocked | Covered | Measured | Returned | Differing | Pressed


@dataclass(frozen=True)
class StepVerdict:
    """What a run shows of one step."""

    id: str
    stage: str
    title: str
    verdict: str
    """pass, fail, unsure, disputed, skipped, blocked, not-fitted; unanswered where nobody has
    spoken.
    """
    because: Because | None = None
    """What decides it; None where only the word of the observer does."""
    differs: tuple[Difference, ...] = ()
    """The cells that are known to differ."""
    evidence: Evidence | None = None
    """What the differences say of the data bits."""
    note: str = ""
    """The observer's remark on the answer that counts."""
    is_outdated: bool = False
    """The answer was given before the step was changed."""
    observer: str = ""
    answers: int = 0
    """How many answers were given; only the last counts. A step that others cover passes with none.
    """


@dataclass(frozen=True)
class RunVerdict:
    """What a run shows of its board."""

    verdict: str
    """pass, fail or incomplete. fail as soon as one step failed; pass only where every step that is
    fitted passed or is disputed.
    """
    steps: tuple[StepVerdict, ...]

    def count(self, verdict: str) -> int:
        """Return how many steps have that verdict."""
        return sum(step.verdict == verdict for step in self.steps)
