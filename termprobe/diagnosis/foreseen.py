"""What a board with known faults shows of a look, drawn before anybody is asked. Pure."""

from collections.abc import Sequence
from dataclasses import replace

from termprobe.board.faults.catalogue import fault as fault_named
from termprobe.board.faults.model import Fault
from termprobe.board.memory import characters_of
from termprobe.diagnosis.answers import LookAnswer
from termprobe.diagnosis.replay import Replayed, replay
from termprobe.diagnosis.shown import noticed_dots, wanted_of
from termprobe.errors import UsageError
from termprobe.journal.kept import ShownWithFaults
from termprobe.journal.records import Answer, Answered, Record
from termprobe.plan.model import Look, Plan, Step, expected_of
from termprobe.profile.model import Profile
from termprobe.terminal.screen import UNKNOWN_CHARACTER, Screen

SEEDS = (1, 2, 3, 4)
"""What a board holds at power-up nobody knows: a cell is foreseen that is the same however the
board comes up. By chance four are alike in one cell of a thousand screens."""


def foreseen(
    profile: Profile, plan: Plan, records: Sequence[Record], step: Step, faults: Sequence[str]
) -> ShownWithFaults | None:
    """Return what a board with `faults` shows once all that `records` tell was sent to it.

    `step` is the one whose bytes were sent last. It is None where that is what the plan expects,
    where the step has no screen, or where this version knows no such faults.
    """
    expected = expected_of(step)
    known = _faults(profile, faults)
    if expected is None or not known:
        return None
    wanted = wanted_of(expected, isinstance(step, Look) and step.asks_dots)
    asked = LookAnswer(step.id, False, wanted, plan.columns)
    now = Answered(step.id, Answer())
    shown = [
        replay(profile, plan, [*records, now], [asked], *known, seed=seed)[0] for seed in SEEDS
    ]
    is_known = len(set(shown)) == 1
    if is_known and not shown[0].against(wanted).picture:
        return None
    drawn = _drawn(shown, faults, expected, plan.columns)
    first = shown[0]
    return replace(drawn, misdrawn=noticed_dots(first.codes, first.misdrawn, wanted))


def _faults(profile: Profile, names: Sequence[str]) -> list[Fault]:
    """Return the faults called so; none where one of them is not known, or nothing simulated."""
    try:
        return [fault_named(profile, name) for name in names]
    except UsageError:
        return []


def _drawn(
    shown: Sequence[Replayed], faults: Sequence[str], expected: Screen, columns: int
) -> ShownWithFaults:
    """Return what all of `shown` have in common; the cursor only where it is expected at all."""
    cursor = None
    if expected.cursor is not None and len({one.cursor for one in shown}) == 1:
        cursor = shown[0].cursor
    first = shown[0]
    cells = list(characters_of(first.codes, expected.variant))
    for cell, codes in enumerate(zip(*(one.codes for one in shown), strict=True)):
        if len(set(codes)) > 1:
            cells[cell] = UNKNOWN_CHARACTER
    starts = range(0, len(cells), columns)
    rows = tuple("".join(cells[start : start + columns]) for start in starts)
    return ShownWithFaults(tuple(faults), rows, cursor, first.bells)
