"""What would explain a symptom, of the screen and of the keys together. Pure."""

from collections.abc import Iterator
from dataclasses import replace

from termprobe.diagnosis.accounts import Account, fits_of_presses, healthy_presses
from termprobe.diagnosis.causes import NO_CAUSE, cause_of_hypothesis
from termprobe.diagnosis.error_rates import USUAL_RATES, ErrorRates
from termprobe.diagnosis.explained import ONE_PRESS_OF
from termprobe.diagnosis.eye_fits import Fit
from termprobe.diagnosis.joined import joined
from termprobe.diagnosis.key_outcomes import Outcome
from termprobe.diagnosis.key_ranking import Outcomes
from termprobe.diagnosis.key_table import KeyTable, table_of
from termprobe.diagnosis.model import Diagnosis
from termprobe.diagnosis.processes import TellCount, told_nobody
from termprobe.diagnosis.ranking import (
    LEAST_PROBABLE,
    SUSPECTS_NAMED,
    block_shares,
    departures,
    ranked_classes,
    suspect_of,
)
from termprobe.diagnosis.staged import SymptomStage
from termprobe.diagnosis.symptom import Symptom
from termprobe.diagnosis.symptom_probing import probes_of_each
from termprobe.errors import UsageError
from termprobe.profile.model import Profile
from termprobe.verdict.model import FAIL, PASS

NOTICED_FOR_NOTHING = NO_CAUSE._replace(weight=1.0)
"""Nobody writes of a board on which all is well: a judgement."""


def explain(
    profile: Profile,
    symptom: Symptom,
    rates: ErrorRates = USUAL_RATES,
    told: TellCount = told_nobody,
) -> Diagnosis:
    """Return what would explain `symptom` on a board of `profile`.

    What is not modelled is never explained, whatever explains the rest. `told` is told how many
    faults of the display of how many have been tried. Raise UsageError where a key is none of the
    keyboard, or nothing can be simulated of what should be.
    """
    found = Diagnosis(PASS, is_explained=True)
    if symptom.is_modelled:
        found = _of_modelled(profile, symptom, rates, told)
    if not symptom.unmodelled:
        return found
    return replace(found, verdict=FAIL, is_explained=False, unmodelled=symptom.unmodelled)


def _of_modelled(
    profile: Profile, symptom: Symptom, rates: ErrorRates, told: TellCount
) -> Diagnosis:
    """Return what would explain as much of `symptom` as can be simulated."""
    keys = _Keys(profile, symptom)
    stage = SymptomStage(profile, symptom, rates)
    healthy = Account(NOTICED_FOR_NOTHING, {**stage.good, **keys.good})
    if stage.is_as_on_good_board and all(fit.is_as_predicted for fit in healthy.fits.values()):
        return Diagnosis(PASS, is_explained=True)
    accounts = joined(stage.accounts(told), keys.accounts(), healthy)
    changing = [one for one in accounts if departures(one, healthy)]
    found = ranked_classes(healthy, changing)
    named = [one for one in found if one.probability >= LEAST_PROBABLE]
    suspects = [suspect_of(one, healthy) for one in named if one.first is not healthy]
    leading = found[0].first
    fits = {**healthy.fits, **leading.fits}
    is_explained = stage.bears(leading.cause) and keys.bears(fits)
    probes = probes_of_each(suspects[:SUSPECTS_NAMED], profile)
    return Diagnosis(
        FAIL,
        is_explained and leading is not healthy,
        tuple(suspects[:SUSPECTS_NAMED]),
        tuple(one for one in block_shares(found) if one.probability >= LEAST_PROBABLE),
        probes=next(iter(probes), ()),
        probes_of_each=probes,
    )


class _Keys:
    """Compares what keys sent with what they would send with each fault."""

    def __init__(self, profile: Profile, symptom: Symptom) -> None:
        self._table: KeyTable | None = None
        self._came: Outcomes = {}
        self.good: dict[str, Fit] = {}
        if symptom.keys:
            if profile.keyboard is None:
                raise UsageError(
                    f"--keys must be of a keyboard, and the profile {profile.id} describes none"
                )
            self._table = table_of(profile)
            self._came = _outcomes(self._table, symptom)
            self.good = healthy_presses(self._table, self._came)

    def accounts(self) -> Iterator[Account]:
        """Yield the Account of each cause that changes what keys send."""
        if self._table is not None:
            for one, fits in fits_of_presses(self._table, self._came):
                yield Account(cause_of_hypothesis(one), fits)

    def bears(self, fits: dict[str, Fit]) -> bool:
        """Return whether all keys but a slip are accounted for, and most that went wrong."""
        odd = sum(not fits[press].is_as_predicted for press in self._came)
        wrong = [press for press in self._came if not self.good[press].is_as_predicted]
        accounted = sum(fits[press].is_as_predicted for press in wrong)
        is_within_slips = odd * ONE_PRESS_OF <= len(self._came)
        return is_within_slips and (not wrong or 2 * accounted > len(wrong))


def _outcomes(table: KeyTable, symptom: Symptom) -> Outcomes:
    """Return press id -> what came of it, each time."""
    press_of = {press.code: press.id for press in reversed(table.presses.values())}
    came: dict[str, list[Outcome]] = {}
    for pressed, codes in symptom.keys:
        if pressed not in press_of:
            known = f"a character that a key of {len(press_of)} sends"
            raise UsageError(f"--keys must name {known}, not {pressed.decode('latin-1')!r}")
        came.setdefault(press_of[pressed], []).append(Outcome.of(codes))
    return came
