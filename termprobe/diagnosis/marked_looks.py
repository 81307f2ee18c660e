"""How faults account for looks that were marked: what shows the same picture is played once."""

from collections.abc import Sequence
from dataclasses import dataclass, field

from termprobe.board.faults.model import Fault
from termprobe.diagnosis.accounts import Account, Case, has_wrong_speed
from termprobe.diagnosis.answers import LookAnswer
from termprobe.diagnosis.causes import Cause
from termprobe.diagnosis.dictionary import FaultDictionary
from termprobe.diagnosis.eye_fits import Fit
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
        self._fits: dict[tuple[str, str], Fit] = {}
        self.bytes_played = 0
        """So many bytes were sent to boards; what was known already costs none."""

    def account(self, cause: Cause, fault: Fault) -> Account:
        """Return the Account of a board with `fault`, which is the `cause`."""
        performance = self._dictionary.faults[cause.name]
        is_unsure = performance.in_order != performance.alone
        if is_unsure or not self._are_alone or has_wrong_speed([fault]):
            return self._of_run(cause, fault, is_unsure)
        fits = {}
        for one in self._marked:
            picture = performance.alone[self._numbers[one.step_id]].picture
            fits[one.step_id] = self._fit(one, picture, fault)
        return Account(cause, fits)

    def _of_run(self, cause: Cause, fault: Fault, is_unsure: bool) -> Account:
        """Return the Account of a board to which all is sent once more."""
        told, runs = self._told, _played.runs
        if has_wrong_speed([fault]):
            return told.by_replay(cause, fault)
        if fault.name not in runs:
            self.bytes_played += (1 + is_unsure) * bytes_sent(told.records)
            runs[fault.name] = told.shown_with(fault, is_unsure=is_unsure)
        return Account(cause, told.fits_of_all_shown(runs[fault.name]))

    def _is_marked(self, one: LookAnswer) -> bool:
        return one.codes is None and one.step_id in self._numbers

    def _fit(self, one: LookAnswer, picture: str, fault: Fault) -> Fit:
        """Return the Fit of a look that shows `picture` on a board with `fault`, among others."""
        key = one.step_id, picture
        if key not in _played.looks:
            _played.looks[key] = self._play(one, fault)
        if key not in self._fits:
            self._fits[key] = self._told.fit_of_shown(one, _played.looks[key])
        return self._fits[key]

    def _play(self, one: LookAnswer, fault: Fault) -> Replayed:
        plan = self._told.plan
        records = records_of_chain(plan, plan.step(one.step_id))
        self.bytes_played += bytes_sent(records)
        (shown,) = replay(self._told.profile, plan, records, [one], fault)
        return shown
