"""How faults account for looks that were marked: what shows the same picture is played once."""

from collections.abc import Sequence
from dataclasses import dataclass, field

from termprobe.board.faults.model import Fault
from termprobe.diagnosis.accounts import Account, Case, Fits, has_wrong_speed
from termprobe.diagnosis.answers import LookAnswer
from termprobe.diagnosis.causes import Cause
from termprobe.diagnosis.dictionary import FaultDictionary
from termprobe.diagnosis.eye_fits import Fit
from termprobe.diagnosis.looks_before import shows_before
from termprobe.diagnosis.replay import Replayed, records_of_chain, replay
from termprobe.diagnosis.told_alone import bytes_sent
from termprobe.journal.records import Record


@dataclass
class _Played:
    """What was played last: a session asks for the same again after every answer."""

    dictionary: FaultDictionary | None = None
    looks: dict[tuple[str, str], Replayed] = field(default_factory=dict)
    """By the id of a look and the digest of what it shows."""
    run: tuple[Sequence[Record], Sequence[str]] = (), ()
    """What was sent, and the steps that were answered."""
    runs: dict[str, tuple[Replayed, ...]] = field(default_factory=dict)
    """By the name of a fault, what was shown when this was played with it."""

    def begin(self, dictionary: FaultDictionary, told: Case) -> None:
        """Forget what is of another dictionary, or of another run."""
        run = tuple(told.records), [one.step_id for one in told.observations]
        if dictionary is not self.dictionary:
            self.dictionary, self.looks, self.runs = dictionary, {}, {}
        if run != self.run:
            self.run, self.runs = run, {}


_played = _Played()


class MarkedLooks:
    """The part of a run that is to be played again, on one board after another.

    The dictionary knows with which faults a look shows the same. Where only marks are compared,
    and nothing depends on what was sent before, each picture is played and compared once.
    """

    def __init__(self, told: Case, dictionary: FaultDictionary) -> None:
        self._told, self._dictionary = told, dictionary
        self._numbers = {look: number for number, look in enumerate(dictionary.looks)}
        self._marked = [one for one in told.observations if isinstance(one, LookAnswer)]
        are_marked = all(self._is_marked(one) for one in self._marked)
        self._are_alone = are_marked and len(self._marked) == len(told.observations)
        _played.begin(dictionary, told)
        self._compared: dict[tuple[str, str], Fit] = {}
        self.bytes_played = 0
        """So many bytes were sent to boards; what was known already costs none."""

    def told_anew(self, known: Account, fault: Fault) -> Account:
        """Return the account `known` of a board with `fault`, by the screens that it would show.

        Where these depend on what was sent before they are known.
        """
        return Account(known.cause, {**known.fits, **self._fits(known.cause, fault)})

    def _fits(self, cause: Cause, fault: Fault) -> Fits:
        if has_wrong_speed([fault]):
            return self._told.by_replay(cause, fault).fits
        if shows_before(cause.name, self._dictionary):
            return {}
        if not self._are_alone:
            return self._told.fits_of_all_shown(self._shown_in_run(fault))
        pictures = self._dictionary.faults[cause.name].alone
        return {
            one.step_id: self._fit(one, pictures[self._numbers[one.step_id]].picture, fault)
            for one in self._marked
        }

    def _shown_in_run(self, fault: Fault) -> tuple[Replayed, ...]:
        """Return what a board shows to which all is sent once more."""
        runs = _played.runs
        if fault.name not in runs:
            self.bytes_played += bytes_sent(self._told.records)
            runs[fault.name] = self._told.shown_with(fault)
        return runs[fault.name]

    def _is_marked(self, one: LookAnswer) -> bool:
        return one.codes is None and one.step_id in self._numbers

    def _fit(self, one: LookAnswer, picture: str, fault: Fault) -> Fit:
        """Return the Fit of a look that shows `picture` on a board with `fault`, among others."""
        key = one.step_id, picture
        if key not in _played.looks:
            _played.looks[key] = self._play(one, fault)
        if key not in self._compared:
            self._compared[key] = self._told.fit_of_shown(one, _played.looks[key])
        return self._compared[key]

    def _play(self, one: LookAnswer, fault: Fault) -> Replayed:
        plan = self._told.plan
        records = records_of_chain(plan, plan.step(one.step_id))
        self.bytes_played += bytes_sent(records)
        (shown,) = replay(self._told.profile, plan, records, [one], fault)
        return shown
