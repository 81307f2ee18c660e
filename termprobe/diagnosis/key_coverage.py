"""By which presses of a keyboard each fault of keys and line is shown."""

from collections.abc import Collection, Sequence
from typing import NamedTuple

from termprobe.diagnosis.cheapest import Want
from termprobe.diagnosis.cover import bits_of
from termprobe.diagnosis.fault_names import parsed
from termprobe.diagnosis.key_hypotheses import on_the_board
from termprobe.diagnosis.key_hypothesis import Hypothesis
from termprobe.diagnosis.key_table import table_of
from termprobe.diagnosis.keyboard_causes import TRIES
from termprobe.plan.model import Press
from termprobe.profile.model import Profile


class PressesShow(NamedTuple):
    """What the presses of a plan show of one fault."""

    want: Want
    """So many of these presses, by their numbers, show it for certain."""
    sends: frozenset[object]
    """What comes of the presses of which something else comes than should: the same for faults
    that no press tells apart."""


def shown_by_presses(
    profile: Profile, presses: Sequence[Press], names: Collection[str]
) -> dict[str, PressesShow]:
    """Return by the name of each fault of `names` what `presses` show of it, where they do."""
    if not presses:
        return {}
    healthy, *causes = _hypotheses(profile, presses)
    found = {}
    for cause in causes:
        shown = _shown(cause, healthy, presses)
        if cause.name in names and shown is not None:
            found[cause.name] = shown
    return found


def _hypotheses(profile: Profile, presses: Sequence[Press]) -> Sequence[Hypothesis]:
    """Return what could be wrong on the board, healthy first; of all presses that is known already.

    Causes elsewhere may be among them.
    """
    known = table_of(profile)
    if tuple(presses) == tuple(known.presses.values()):
        return known.hypotheses
    return on_the_board(profile, presses)


def _shown(cause: Hypothesis, healthy: Hypothesis, presses: Sequence[Press]) -> PressesShow | None:
    """Return what `presses` show of `cause`, None where they may show nothing."""
    changes = cause.changes(healthy)
    perhaps = bits_of(number for number, press in enumerate(presses) if press.id in changes)
    surely = bits_of(
        number
        for number, press in enumerate(presses)
        if press.id in changes and not set(changes[press.id]) & set(healthy.sends[press.id])
    )
    tries = TRIES.get(parsed(cause.name).kind, 1)
    if surely:
        want = Want(surely, 1)
    elif tries > 1 and perhaps.bit_count() >= tries:
        want = Want(perhaps, tries)
    else:
        return None
    return PressesShow(want, frozenset(changes.items()))
