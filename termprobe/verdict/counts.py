"""How many steps a run has, and what became of them: the one way of counting. Pure.

What is counted are the steps of the plan that this board has: those that are not fitted are none of
them. A look that others cover is one, and passes with them.
"""

from collections.abc import Iterable
from dataclasses import dataclass

from termprobe.verdict import model
from termprobe.verdict.model import AsWithFault, Covered, StepVerdict

ORDER = (
    model.PASS,
    model.FAIL,
    model.DISPUTED,
    model.UNSURE,
    model.UNANSWERED,
    model.BLOCKED,
    model.SKIPPED,
)
"""The verdicts of steps that are counted, in the order in which they are told."""


@dataclass(frozen=True)
class Counts:
    """Numbers of steps."""

    verdicts: tuple[str, ...]
    """The verdict of each step that is counted."""
    covered: int
    """Of those that passed, the looks that were not asked since others covered them."""
    not_fitted: int
    """Steps that are not counted, since this terminal cannot do them."""
    with_fault: int = 0
    """Of those that passed, the looks that show what a known fault makes of them."""

    @property
    def all(self) -> int:
        """All that are counted."""
        return len(self.verdicts)

    @property
    def left(self) -> int:
        """Those that have no verdict yet."""
        return self.of(model.UNANSWERED)

    @property
    def done(self) -> int:
        """Those that have a verdict."""
        return self.all - self.left

    def of(self, *words: str) -> int:
        """Return how many have one of these verdicts."""
        return sum(self.verdicts.count(word) for word in words)

    def in_words(self) -> tuple[str, ...]:
        """Return how many have each verdict: `3 pass (1 covered)`, `4 not-fitted`."""
        told = [self._told(word) for word in ORDER if word in self.verdicts]
        if self.not_fitted:
            told.append(f"{self.not_fitted} {model.NOT_FITTED}")
        return tuple(told)

    def _told(self, word: str) -> str:
        told = f"{self.of(word)} {word}"
        beside = []
        if word == model.PASS and self.covered:
            beside.append(f"{self.covered} covered")
        if word == model.PASS and self.with_fault:
            beside.append(f"{self.with_fault} with known fault")
        return f"{told} ({', '.join(beside)})" if beside else told


def counts(steps: Iterable[StepVerdict]) -> Counts:
    """Return the Counts of steps by their verdicts."""
    known = list(steps)
    fitted = [step for step in known if step.verdict != model.NOT_FITTED]
    covered = sum(isinstance(step.because, Covered) for step in fitted)
    with_fault = sum(isinstance(step.because, AsWithFault) for step in fitted)
    verdicts = tuple(step.verdict for step in fitted)
    return Counts(verdicts, covered, len(known) - len(fitted), with_fault)
