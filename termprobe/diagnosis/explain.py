"""What would explain a symptom: every fault is played on the texts that were sent. Pure."""

from collections.abc import Iterator

from termprobe.board.board import Board
from termprobe.board.faults.bus import STUCK_LEVELS
from termprobe.board.faults.catalogue import catalogue
from termprobe.board.faults.cell import fault_named as cell_named
from termprobe.board.faults.model import Fault
from termprobe.board.wiring import DATA_LINES, wire
from termprobe.diagnosis.accounts import Account, fits_of_presses, healthy_presses
from termprobe.diagnosis.area import Region
from termprobe.diagnosis.causes import NO_CAUSE, Cause, cause_of, cause_of_cell, cause_of_hypothesis
from termprobe.diagnosis.error_rates import USUAL_RATES, ErrorRates
from termprobe.diagnosis.explained import ONE_PRESS_OF
from termprobe.diagnosis.eye_fits import Fit
from termprobe.diagnosis.joined import joined
from termprobe.diagnosis.key_outcomes import Outcome
from termprobe.diagnosis.key_ranking import Outcomes
from termprobe.diagnosis.key_table import KeyTable, table_of
from termprobe.diagnosis.model import Diagnosis
from termprobe.diagnosis.playing import has_part_in_display
from termprobe.diagnosis.probing import named_for_probing, probe_of
from termprobe.diagnosis.ranking import (
    LEAST_PROBABLE,
    SUSPECTS_NAMED,
    block_shares,
    departures,
    ranked_classes,
    suspect_of,
)
from termprobe.diagnosis.symptom import (
    Glimpse,
    Stagehand,
    Symptom,
    fit_of_area,
    fit_of_text,
    slips_in,
)
from termprobe.errors import UsageError
from termprobe.profile.model import Profile
from termprobe.verdict.model import FAIL, PASS

WHERE_STEP = "where"
NOTICED_FOR_NOTHING = NO_CAUSE._replace(weight=1.0)
"""Nobody writes of a board on which all is well: a judgement."""
SLIPS_BORNE = 1
"""So many characters of all that was written down may be wrong."""


def explain(profile: Profile, symptom: Symptom, rates: ErrorRates = USUAL_RATES) -> Diagnosis:
    """Return what would explain `symptom` on a board of `profile`.

    Raise UsageError where nothing of it can be simulated, or a key is none of the keyboard.
    """
    keys = _Keys(profile, symptom)
    stage = _Stage(profile, symptom, rates)
    healthy = Account(NOTICED_FOR_NOTHING, {**stage.good, **keys.good})
    if all(fit.is_as_predicted for fit in healthy.fits.values()):
        return Diagnosis(PASS, is_explained=True)
    accounts = joined(stage.accounts(), keys.accounts(), healthy)
    changing = [one for one in accounts if departures(one, healthy)]
    found = ranked_classes(healthy, changing)
    named = [one for one in found if one.probability >= LEAST_PROBABLE]
    suspects = [suspect_of(one, healthy) for one in named if one.first is not healthy]
    leading = found[0].first
    fits = {**healthy.fits, **leading.fits}
    is_explained = stage.bears(leading.cause) and keys.bears(fits)
    probes = [probe_of(name, profile) for name in named_for_probing(suspects)]
    return Diagnosis(
        FAIL,
        is_explained and leading is not healthy,
        tuple(suspects[:SUSPECTS_NAMED]),
        tuple(one for one in block_shares(found) if one.probability >= LEAST_PROBABLE),
        probes=tuple(filter(None, probes)),
    )


class _Stage:
    """Plays all faults of the display on what was sent."""

    def __init__(self, profile: Profile, symptom: Symptom, rates: ErrorRates) -> None:
        self._profile, self._symptom, self._rates = profile, symptom, rates
        self._glimpses: dict[str, Glimpse] = {}
        self.good: dict[str, Fit] = {}
        if symptom.texts or symptom.area:
            self._hand = Stagehand(profile, symptom)
            self.good = self._fits(NO_CAUSE, Board(profile))

    def accounts(self) -> Iterator[Account]:
        """Yield the Account of each fault that can change what is seen."""
        if not self.good:
            return
        healthy = wire(self._profile)
        for cause, fault in self._causes():
            wiring = wire(self._profile)
            fault.apply(wiring)
            if has_part_in_display(wiring, healthy):
                board = Board(self._profile, wiring=wiring)
                yield Account(cause, self._fits(cause, board))

    def _causes(self) -> Iterator[tuple[Cause, Fault]]:
        for fault in catalogue(self._profile).values():
            yield cause_of(fault), fault
        area = self._symptom.area
        if area is not None and len(area.rows) == len(area.columns) == 1:
            for fault in _bits_of(area, self._profile):
                yield cause_of_cell(fault, self._profile), fault

    def _fits(self, cause: Cause, board: Board) -> dict[str, Fit]:
        glimpse = self._glimpses[cause.name] = self._hand.glimpse(board)
        fits = {}
        pairs = zip(self._symptom.texts, glimpse.texts, strict=True)
        for number, (text, shown) in enumerate(pairs, 1):
            fits[f"text {number}"] = fit_of_text(text, shown, self._rates)
        if self._symptom.area is not None:
            fits[WHERE_STEP] = fit_of_area(self._symptom.area, glimpse.differing)
        return fits

    def bears(self, cause: Cause) -> bool:
        """Return whether all that was seen is as `cause` predicts, but for a slip.

        A good board must not account for it with as few slips.
        """
        if not self.good:
            return True
        glimpse = self._glimpses.get(cause.name, self._glimpses[NO_CAUSE.name])
        area = self._symptom.area
        if area is not None and not fit_of_area(area, glimpse.differing).is_as_predicted:
            return False
        return self._slips(glimpse) <= SLIPS_BORNE

    def _slips(self, glimpse: Glimpse) -> int:
        pairs = zip(self._symptom.texts, glimpse.texts, strict=True)
        return sum(min(slips_in(text, shown)) for text, shown in pairs)


def _bits_of(area: Region, profile: Profile) -> Iterator[Fault]:
    """Yield every bit stuck of the only cell of `area`."""
    (row,), (column,) = area
    for bit in range(DATA_LINES):
        for level in STUCK_LEVELS:
            yield cell_named(profile, f"cell/stuck/{row}-{column}-{bit}/{level}")


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
