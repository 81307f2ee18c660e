"""Causes with which a look may show what was sent before it: they are told by the run as it went.

The dictionary knows what such a look shows after the whole script, and alone.
"""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from threading import Lock

from termprobe.board.faults.catalogue import fault as fault_named
from termprobe.diagnosis.accounts import Account, Case, has_wrong_speed
from termprobe.diagnosis.answers import LookAnswer
from termprobe.diagnosis.dictionary import FaultDictionary
from termprobe.diagnosis.eye_fits import Fit
from termprobe.diagnosis.fits import fit_in_run
from termprobe.diagnosis.run_boards import RunBoard, RunBoards
from termprobe.diagnosis.shown import Sight


@dataclass
class _Kept:
    """The boards of the last run: a session asks for the same again after every answer."""

    dictionary: FaultDictionary | None = None
    boards: RunBoards | None = None

    def boards_of(self, case: Case, dictionary: FaultDictionary) -> RunBoards:
        """Return boards to which the run of `case` was sent."""
        if self.boards is None or dictionary is not self.dictionary:
            self.dictionary, self.boards = dictionary, RunBoards(case.profile, case.plan)
        self.boards.take(case.records)
        return self.boards


_kept = _Kept()
_one_at_a_time = Lock()
"""Two threads of a session may ask."""


def shows_before(name: str, dictionary: FaultDictionary) -> bool:
    """Return whether looks show with the fault of this name what was sent before them, too."""
    performance = dictionary.faults.get(name)
    return performance is not None and performance.in_order != performance.alone


def with_history(
    case: Case, accounts: Sequence[Account], dictionary: FaultDictionary
) -> list[Account]:
    """Return `accounts`, those of causes that show what was sent before told by the run itself."""
    with _one_at_a_time:
        boards = _kept.boards_of(case, dictionary)
        return [
            _told_anew(case, one, boards) if _is_played(case, one.cause.name, dictionary) else one
            for one in accounts
        ]


def sights_in_run(
    case: Case, names: Sequence[str], dictionary: FaultDictionary
) -> dict[str, dict[str, Sight]]:
    """Return how each look that was answered differed then, with each such fault of `names`.

    It goes by the id of the look, then by the name of the fault.
    """
    looks = [one for one in case.observations if isinstance(one, LookAnswer)]
    before = [name for name in names if _is_played(case, name, dictionary)]
    with _one_at_a_time:
        boards = _kept.boards_of(case, dictionary)
        played = {name: boards.of(fault_named(case.profile, name)) for name in before}
        return {one.step_id: _sights_at(one, played) for one in looks}


def _sights_at(look: LookAnswer, boards: Mapping[str, RunBoard]) -> dict[str, Sight]:
    """Return how a look differed on each of `boards`."""
    shown = {name: board.shown_at(look.moment)[0] for name, board in boards.items()}
    return {name: one.against(look.wanted) for name, one in shown.items()}


def _is_played(case: Case, name: str, dictionary: FaultDictionary) -> bool:
    """Return whether the run is played to a board with the fault of this name.

    What one with a wrong clock shows is not known: it depends on where the sending pauses.
    """
    return shows_before(name, dictionary) and not has_wrong_speed([fault_named(case.profile, name)])


def _told_anew(case: Case, account: Account, boards: RunBoards) -> Account:
    """Return the account with the Fit of each screen by what the board of `boards` showed then."""
    board = boards.of(fault_named(case.profile, account.cause.name))
    return Account(account.cause, {**account.fits, **dict(_fits_in_run(case, board))})


def _fits_in_run(case: Case, board: RunBoard) -> Iterator[tuple[str, Fit]]:
    """Yield (step id, Fit) of everything that was answered."""
    for one in case.observations:
        if isinstance(one, LookAnswer):
            yield one.step_id, fit_in_run(one, lambda it: board.shown_at(it.moment), case.rates)
        else:
            yield one.step_id, case.fit_of_shown(one, board.shown_at(one.moment)[0])
