"""Verdicts, of a step and of a run. Facts only: report/words.py puts them into words."""

from collections.abc import Sequence
from dataclasses import dataclass

from termprobe.errors import EXIT_LINK, exit_code_of
from termprobe.journal.known_fault import KnownFault
from termprobe.terminal.dots import Misdrawn
from termprobe.terminal.screen import Difference
from termprobe.verdict.evidence import Evidence
from termprobe.verdict.noticed import Noticed, Rate

PASS, FAIL, UNSURE, DISPUTED = "pass", "fail", "unsure", "disputed"
SKIPPED, BLOCKED, NOT_FITTED, UNANSWERED = "skipped", "blocked", "not-fitted", "unanswered"
INCOMPLETE = "incomplete"


@dataclass(frozen=True)
class Unfitted:
    """This terminal cannot do the step, or the line has not what it takes to try it."""

    why: str


@dataclass(frozen=True)
class Blocked:
    """Something that the step needs failed."""

    needs: tuple[str, ...]
    """The step needed, the one that that one needs, and so on to the one that failed."""
    ignored: str = ""
    """The verdict by an answer that was given all the same; it means nothing before that works."""
    is_switched_off: bool = False
    """The step in `needs` does not bear it, but says that the board must be switched off."""
    was_skipped: bool = False
    """The last of `needs` has not failed: it was skipped, and so is not prepared."""


@dataclass(frozen=True)
class Silent:
    """Nothing had ever come over the line when nothing came of the step: that says nothing of it.

    Such a step is blocked until something has come; then it is to be answered again.
    """

    noticed: "Returned | Differing | Pressed"
    """What would decide it, did it say anything of the board."""
    is_heard: bool = False
    """What was sent was seen on the screen, so the board hears."""


@dataclass(frozen=True)
class Covered:
    """Looks of which one fails wherever the step would have all passed."""

    by: tuple[str, ...]


@dataclass(frozen=True)
class LineFound:
    """What a check of the line found."""

    said: str
    drawn: tuple[str, ...] = ()
    """The same as a drawing, in rows; empty where there is none."""


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
    errors: tuple[str, ...] = ()
    """What the port reported of the bytes that came: parity, framing, overrun, break, bad."""
    form: str = ""
    """In the notation, where only a form must come; `wanted` is then one reply of that form."""

    @property
    def is_right(self) -> bool:
        """Whether just these bytes came, each received without an error."""
        return self.wanted == self.came and not self.errors


@dataclass(frozen=True)
class Differing:
    """A screen against what it must show; None for what is as it must be, or is not known."""

    cells: int
    cursor: tuple[tuple[int, int], tuple[int, int]] | None = None
    """(row, column) expected, and seen."""
    bells: tuple[int, int] | None = None
    """How often the bell must ring, and rang."""
    is_counted: bool = True
    """The whole screen was compared; else the builder marked the cells, and perhaps not all."""
    misdrawn: tuple[Misdrawn, ...] = ()
    """What was drawn with other dots than it should be."""


@dataclass(frozen=True)
class Pressed:
    """What was noticed of the last press of a key, and how its contact works over all presses."""

    noticed: tuple[Noticed, ...]
    """The worst first."""
    rate: Rate


NO_PRESS = Pressed((), Rate(0, 0))
"""Before the first one."""


@dataclass(frozen=True)
class Changed:
    """The step was answered under another text, and is not the same any more."""


@dataclass(frozen=True)
class MayBeLost:
    """The answer that counts may be among the records that cannot be read."""


@dataclass(frozen=True)
class AsWithFault:
    """The screen is not as the plan has it, but just as a board with the known faults shows it."""

    faults: tuple[str, ...]


@dataclass(frozen=True)
class AsOfGoodBoard:
    """The screen is as the plan has it, though known faults should have changed it."""

    faults: tuple[str, ...]


@dataclass(frozen=True)
class Hidden:
    """A known fault changes so much of the screen that it is not asked."""

    fault: str


Because = (
    Unfitted
    | Blocked
    | Silent
    | Covered
    | Measured
    | LineFound
    | Returned
    | Differing
    | Pressed
    | Changed
    | MayBeLost
    | AsWithFault
    | AsOfGoodBoard
    | Hidden
)


@dataclass(frozen=True)
class Earlier:
    """What an answer said that does not count any more, judged alone."""

    verdict: str
    because: Because | None = None
    note: str = ""
    is_taken_back: bool = False


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
    observer: str = ""
    not_seen: tuple[str, ...] = ()
    """What its observer saw nothing of: cursor, bell, rendition; the verdict is by the rest."""
    answers: int = 0
    """How many answers were given; only the last counts. A step that others cover passes with none.
    """
    earlier: Sequence[Earlier] = ()
    """The answers before the one that counts, in the order in which they were given, those taken
    back first; each is judged when it is asked for."""
    known_fault: str = ""
    """The known fault that predicts just this failure; it then blocks no other step."""
    blames: str = ""
    """Whom a failure speaks against, where not the board; as of a plan's step."""


@dataclass(frozen=True)
class RunVerdict:
    """What a run shows of its board."""

    verdict: str
    """pass, fail or incomplete. fail as soon as one step failed that speaks against the board; pass
    only where every step that is fitted passed.
    """
    steps: tuple[StepVerdict, ...]
    switch_off: tuple[str, ...] = ()
    """Ids of the steps by whose rule the board must be switched off now, in the plan's order."""
    known_faults: tuple[KnownFault, ...] = ()
    """With which the run goes on; with any the verdict is fail."""

    @property
    def passed(self) -> frozenset[str]:
        """The ids of the steps that passed by answers of their own, as on a good board."""
        passed = (step for step in self.steps if step.verdict == PASS)
        return frozenset(step.id for step in passed if not is_leaning(step))

    @property
    def silent(self) -> tuple[StepVerdict, ...]:
        """The steps that are blocked since nothing has ever come over the line."""
        return tuple(step for step in self.steps if is_unheard(step))

    @property
    def failed_elsewhere(self) -> tuple[StepVerdict, ...]:
        """The steps that failed and speak against somebody else than the board."""
        return tuple(step for step in self.steps if step.verdict == FAIL and step.blames)

    @property
    def exit_code(self) -> int:
        """The exit code of the run: trouble with the link where that keeps a verdict away."""
        if self.verdict == INCOMPLETE and (self.silent or self.failed_elsewhere):
            return EXIT_LINK
        return exit_code_of(self.verdict)

    def count(self, verdict: str) -> int:
        """Return how many steps have that verdict."""
        return sum(step.verdict == verdict for step in self.steps)


def is_leaning(step: StepVerdict) -> bool:
    """Return whether what lets a step pass proves nothing of another: others, or known faults."""
    return isinstance(step.because, Covered | AsWithFault)


def is_unheard(step: StepVerdict) -> bool:
    """Return whether a step is blocked since nothing has ever come over the line."""
    return step.verdict == BLOCKED and isinstance(step.because, Silent)
