"""Verdicts, of a step and of a run."""

from dataclasses import dataclass

PASS, FAIL, UNSURE, DISPUTED = "pass", "fail", "unsure", "disputed"
SKIPPED, BLOCKED, NOT_FITTED, UNANSWERED = "skipped", "blocked", "not-fitted", "unanswered"
INCOMPLETE = "incomplete"


@dataclass(frozen=True)
class StepVerdict:
    """What a run shows of one step."""

    id: str
    stage: str
    title: str
    verdict: str
    """pass, fail, unsure, disputed, skipped, blocked, not-fitted; unanswered where nobody has spoken."""
    reason: str = ""
    """Why, in one sentence: the reading against its limits, the step that blocks, what differs."""
    differs: tuple[tuple[int, int, str, str], ...] = ()
    """(row, column, expected, seen) for each cell that is known to differ."""
    evidence: tuple[str, ...] = ()
    """What speaks for the verdict: observer, note, bytes that came, bits computed from `differs`."""
    observer: str = ""
    answers: int = 0
    """How many answers were given; only the last counts. A step that others cover passes with none."""


@dataclass(frozen=True)
class RunVerdict:
    """What a run shows of its board."""

    verdict: str
    """pass, fail or incomplete. fail as soon as one step failed; pass only where every step that is fitted passed or is disputed."""
    steps: tuple[StepVerdict, ...]

    def count(self, verdict):
        """Return how many steps have that verdict."""
        return sum(step.verdict == verdict for step in self.steps)
