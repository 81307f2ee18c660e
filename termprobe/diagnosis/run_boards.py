"""Boards to which a run is sent as it grows, one for each fault that shows what was sent before.

The dictionary knows what a look shows after the whole script, and alone; a run goes its own way. A
look that is asked once more may show something else then.
"""

from collections.abc import Iterable, Sequence

from termprobe.board.board import Board
from termprobe.board.faults.model import Fault
from termprobe.diagnosis.answers import TO_THE_BOARD, moments_of
from termprobe.diagnosis.replay import OTHER_SEED, ReplayedBoard, ShownTwice
from termprobe.journal.records import Answered, Record
from termprobe.plan.model import Plan, Reply, ScreenStep
from termprobe.profile.model import Profile


class RunBoard:
    """One board with a fault, twice: what it held at power-up nobody knows."""

    def __init__(self, profile: Profile, plan: Plan, fault: Fault) -> None:
        self._boards = [
            ReplayedBoard(plan, Board(profile, [fault], seed)) for seed in (1, OTHER_SEED)
        ]
        self._shown: dict[int, ShownTwice] = {}
        self._done = 0

    def shown_at(self, moment: int) -> ShownTwice:
        """Return what was shown at a moment of the run, as a LookAnswer has it."""
        return self._shown[moment]

    def has_passed(self, moments: Iterable[int]) -> bool:
        """Return whether the board is past one of `moments`, and nobody looked at it then."""
        return any(moment < self._done for moment in moments if moment not in self._shown)

    def go_on(self, done: Sequence[Record], moments: Sequence[int]) -> None:
        """Play what was `done` to the board since, and keep what is shown at each of `moments`.

        Once both boards hold the same, one goes on alone.
        """
        for moment in moments:
            if moment in self._shown:
                continue
            for board in self._boards:
                for record in done[self._done : moment]:
                    board.take(record)
            self._done = moment
            shown = [board.shown() for board in self._boards]
            self._shown[moment] = shown[0].beside(shown[-1]), shown[-1]
            if len({board.state for board in self._boards}) == 1:
                del self._boards[1:]


class RunBoards:
    """All boards of one run, each played as far as the run when it is asked for."""

    def __init__(self, profile: Profile, plan: Plan) -> None:
        self._profile, self._plan = profile, plan
        self._done: list[Record] = []
        self._moments: list[int] = []
        """At which something was answered."""
        self._boards: dict[str, RunBoard] = {}

    def take(self, records: Sequence[Record]) -> None:
        """Let the run be `records`; boards that were sent something else are let go."""
        done: list[Record] = [one for one in records if isinstance(one, TO_THE_BOARD)]
        at = moments_of(records)
        answers = (one for one in records if isinstance(one, Answered) and self._tells(one.step))
        if done[: len(self._done)] != self._done:
            self._boards = {}
        self._done, self._moments = done, list(dict.fromkeys(at[id(one)] for one in answers))

    def _tells(self, step: str) -> bool:
        """Return whether an answer to `step` tells of what the board shows, or sends by itself."""
        return step in self._plan.index and isinstance(self._plan.step(step), ScreenStep | Reply)

    def of(self, fault: Fault) -> RunBoard:
        """Return the board with `fault`, as the run has left it."""
        board = self._boards.get(fault.name)
        if board is None or board.has_passed(self._moments):
            board = self._boards[fault.name] = RunBoard(self._profile, self._plan, fault)
        board.go_on(self._done, self._moments)
        return board
