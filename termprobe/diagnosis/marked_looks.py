"""How faults account for looks that were marked: what shows the same picture is played once."""

from termprobe.board.faults.model import Fault
from termprobe.diagnosis.accounts import Account, Case, has_wrong_speed
from termprobe.diagnosis.answers import LookAnswer
from termprobe.diagnosis.causes import Cause
from termprobe.diagnosis.dictionary import FaultDictionary
from termprobe.diagnosis.eye_fits import Fit
from termprobe.diagnosis.replay import Replayed, records_of_chain, replay
from termprobe.diagnosis.told_alone import bytes_sent

PlayedLooks = dict[tuple[str, str], Replayed]
"""By the id of a look and the digest of what it shows."""

_known: list[tuple[FaultDictionary, PlayedLooks]] = []
"""What was played last: a session asks for the same again after every answer."""


def _shown_by(dictionary: FaultDictionary) -> PlayedLooks:
    """Return what has been played by now of the looks of `dictionary`."""
    for known, shown in _known:
        if known is dictionary:
            return shown
    _known[:] = [(dictionary, {})]
    return _known[0][1]


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
        self._shown = _shown_by(dictionary)
        self._fits: dict[tuple[str, str], Fit] = {}
        self.bytes_played = 0
        """So many bytes were sent to boards; what was known already costs none."""

    def account(self, cause: Cause, fault: Fault) -> Account:
        """Return the Account of a board with `fault`, which is the `cause`."""
        performance = self._dictionary.faults[cause.name]
        is_unsure = performance.in_order != performance.alone
        if is_unsure or not self._are_alone or has_wrong_speed([fault]):
            self.bytes_played += (1 + is_unsure) * bytes_sent(self._told.records)
            return self._told.by_replay(cause, fault, is_unsure=is_unsure)
        fits = {}
        for one in self._marked:
            picture = performance.alone[self._numbers[one.step_id]].picture
            fits[one.step_id] = self._fit(one, picture, fault)
        return Account(cause, fits)

    def _is_marked(self, one: LookAnswer) -> bool:
        return one.codes is None and one.step_id in self._numbers

    def _fit(self, one: LookAnswer, picture: str, fault: Fault) -> Fit:
        """Return the Fit of a look that shows `picture` on a board with `fault`, among others."""
        key = one.step_id, picture
        if key not in self._shown:
            self._shown[key] = self._played(one, fault)
        if key not in self._fits:
            self._fits[key] = self._told.fit_of_shown(one, self._shown[key])
        return self._fits[key]

    def _played(self, one: LookAnswer, fault: Fault) -> Replayed:
        plan = self._told.plan
        records = records_of_chain(plan, plan.step(one.step_id))
        self.bytes_played += bytes_sent(records)
        (shown,) = replay(self._told.profile, plan, records, [one], fault)
        return shown
