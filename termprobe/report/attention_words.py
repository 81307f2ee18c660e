"""How the attention checks of a run went, as facts and in words."""

from collections.abc import Callable, Iterable
from dataclasses import dataclass

from termprobe.folding import first_of
from termprobe.journal.attention import (
    FEWEST_CHECKS,
    AttentionChecked,
    AttentionWanted,
    is_measured,
)
from termprobe.journal.records import Record

NAMED = 8


@dataclass(frozen=True)
class AttentionChecks:
    """The checks of a run: ids of looks in whose place a wrong screen was shown."""

    rate: float
    seed: int
    """Both as they were told last."""
    caught: tuple[str, ...] = ()
    missed: tuple[str, ...] = ()
    undecided: tuple[str, ...] = ()
    """Answered as unsure, or skipped."""


def attention_checks(records: Iterable[Record]) -> AttentionChecks | None:
    """Return how the checks went by the records of a run; None where none were wanted."""
    known = list(records)
    wanted = [one for one in known if isinstance(one, AttentionWanted)]
    if not wanted:
        return None
    checks = [one for one in known if isinstance(one, AttentionChecked)]
    return AttentionChecks(
        wanted[-1].rate,
        wanted[-1].seed,
        tuple(one.step for one in checks if one.is_caught),
        tuple(one.step for one in checks if one.is_missed),
        tuple(one.step for one in checks if not (one.is_caught or one.is_missed)),
    )


def checks_in_words(checks: AttentionChecks | None, named: Callable[[str], str] = str) -> str:
    """Return the paragraph on the checks; empty where none were wanted.

    `named(id)` is what a step is called in it; its id by default.
    """
    if checks is None:
        return ""
    decided = len(checks.caught) + len(checks.missed)
    told = f"{len(checks.caught)} of {decided} screens that were wrong on purpose were noticed"
    if not decided:
        told = "no screen that was wrong on purpose was answered"
    if checks.missed:
        missed = [named(step) for step in checks.missed]
        told += f"; taken for right in the place of {first_of(missed, NAMED)}"
    if checks.undecided:
        told += f"; {len(checks.undecided)} neither"
    return f"{told}. They count neither for nor against the board. {_rates(checks)}."


def _rates(checks: AttentionChecks) -> str:
    """Return whether the causes are weighed by what these checks show of the builder's eyes."""
    if is_measured(len(checks.caught), len(checks.missed)):
        return "What would explain the run is weighed by this share of misses"
    return (
        f"Fewer than {FEWEST_CHECKS} tell too little of how often a wrong screen is missed, "
        "so that the usual share is reckoned with"
    )
