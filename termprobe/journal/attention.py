"""Records of attention checks: screens that are wrong on purpose, to see if that is noticed."""

from dataclasses import dataclass

from termprobe.journal.records import AS_EXPECTED, DIFFERS, DISPUTED, Answer, Record

CHECK = "attention/"
"""So begins the id under which a wrong screen is sent; the rest is that of its look."""
FEWEST_CHECKS = 10
"""From so many checks it is told how often a wrong screen is missed. A judgement."""


@dataclass(frozen=True)
class AttentionWanted(Record):
    """From here on attention checks are made; which and how follows from these numbers alone."""

    kind = "attention"
    rate: float
    """The share of the looks that are to have one, from 0 to 1."""
    seed: int


@dataclass(frozen=True)
class AttentionChecked(Record):
    """A wrong screen was shown in the place of a look, and answered.

    It says nothing of the board. The look itself is sent and answered afterwards.
    """

    kind = "attention-check"
    step: str
    """Id of the look."""
    answer: Answer

    @property
    def is_caught(self) -> bool:
        """Whether it was seen that the screen is not as drawn."""
        return self.answer.word in (DIFFERS, DISPUTED)

    @property
    def is_missed(self) -> bool:
        """Whether it was taken for right."""
        return self.answer.word == AS_EXPECTED


def is_measured(caught: int, missed: int) -> bool:
    """Return whether there were checks enough to tell how often a wrong screen is missed."""
    return caught + missed >= FEWEST_CHECKS
