"""Blocks ranked by which steps failed: what is left where no modelled fault explains a run.

A step exercises a block where any fault of that block changes what the step shows; that is found
by simulation. The formulas are those of fault localisation in programs, where steps are tests and
blocks are lines (Jones and Harrold's Tarantula; Ochiai, after Abreu, Zoeteweij and van Gemund).
"""

import math
from collections.abc import Iterable, Mapping, Set
from typing import NamedTuple

from termprobe.board.faults.model import block_of
from termprobe.diagnosis.accounts import Case
from termprobe.diagnosis.dictionary import FaultDictionary
from termprobe.diagnosis.shown import AS_WANTED

Exercised = Mapping[str, Set[str]]
"""Block -> ids of the steps that exercise it."""


class Spectrum(NamedTuple):
    """How many steps failed and passed, of all and of those that exercise one block."""

    failed: int
    passed: int
    failed_with: int
    passed_with: int

    @property
    def ochiai(self) -> float:
        """From 0 to 1; 1 where just the steps that exercise the block failed."""
        exercised = self.failed_with + self.passed_with
        if not self.failed or not exercised:
            return 0.0
        return self.failed_with / math.sqrt(self.failed * exercised)

    @property
    def tarantula(self) -> float:
        """From 0 to 1."""
        if not self.failed_with:
            return 0.0
        of_failed = self.failed_with / self.failed
        of_passed = self.passed_with / max(self.passed, 1)
        return of_failed / (of_failed + of_passed)


def spectrum(steps_with: Set[str], failed: Set[str], passed: Set[str]) -> Spectrum:
    """Return the Spectrum of a block that the steps `steps_with` exercise."""
    return Spectrum(len(failed), len(passed), len(failed & steps_with), len(passed & steps_with))


def exercised_by(case: Case, dictionary: FaultDictionary | None) -> Exercised:
    """Return which of the steps that were answered exercise each block."""
    found: dict[str, set[str]] = {}
    if dictionary is not None:
        for name, performance in dictionary.faults.items():
            ways = zip(dictionary.looks, performance.in_order, performance.alone, strict=True)
            looks = {look for look, *sights in ways if sights != [AS_WANTED, AS_WANTED]}
            found.setdefault(block_of(name), set()).update(looks)
    if case.table is not None:
        for one in case.table.hypotheses:
            found.setdefault(one.block, set()).update(one.changes(case.table.healthy))
    return found


def ochiai_ranks(
    exercised: Exercised, failed: Iterable[str], passed: Iterable[str]
) -> dict[str, float]:
    """Return Ochiai's coefficient of each block that a failed step exercises, best first."""
    all_failed, all_passed = set(failed), set(passed)
    ranks = {
        block: spectrum(steps, all_failed, all_passed).ochiai for block, steps in exercised.items()
    }
    ranked = sorted(ranks.items(), key=lambda item: -item[1])
    return {block: rank for block, rank in ranked if block and rank}
