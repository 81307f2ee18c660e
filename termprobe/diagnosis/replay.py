"""What a board with faults would have shown in a run: all that was sent is sent to it again."""

from collections.abc import Iterable, Sequence
from functools import lru_cache
from typing import NamedTuple

from termprobe.board.board import Board, BoardState
from termprobe.board.faults.model import Fault
from termprobe.board.link import SimLink
from termprobe.clock import CrankedClock
from termprobe.diagnosis.answers import Observation
from termprobe.diagnosis.shown import Sight, Sought, sight_of
from termprobe.journal.records import Answer, Answered, OptionSet, Record, Sent, StepBegun
from termprobe.plan.model import Plan, Step
from termprobe.profile.model import Profile
from termprobe.terminal.dots import Misdrawn

GROUP = 1 << 20
"""As a piece: all of a group."""
PIECES = (GROUP, 8, 2, 1)
"""How many characters may leave without a pause, by adapter and handshake."""
OTHER_SEED = 2
"""What a board holds at power-up nobody knows; what differs between two of them is not predicted.
"""


class Replayed(NamedTuple):
    """What a board shows when a step is answered, and has sent back by then."""

    codes: bytes
    """Of each cell, row after row."""
    cursor: tuple[int, int]
    bells: int
    """Since the screen was fresh."""
    sent: bytes
    """Since the step was begun."""
    offset: int = 0
    """How far the screen is scrolled."""
    unknown: frozenset[int] = frozenset()
    """Cells that hold what was there at power-up."""
    misdrawn: tuple[Misdrawn, ...] = ()
    """What of that has the wrong dots."""

    def beside(self, other: "Replayed") -> "Replayed":
        """Return it with the cells unknown in which `other` shows something else."""
        return self._replace(unknown=_differing(self.codes, other.codes))

    def against(self, wanted: Sought) -> Sight:
        """Return how it differs from what must be shown."""
        return _against(self, wanted)


@lru_cache(maxsize=4096)
def _against(shown: Replayed, wanted: Sought) -> Sight:
    """Return what against does; a session asks for the same after every answer."""
    return sight_of(shown.codes, shown.cursor, shown.bells, wanted, shown.misdrawn)


ShownTwice = tuple[Replayed, Replayed]
"""What is shown with either of two contents of the memory at power-up. Of the first, cells are
unknown that the second shows otherwise."""


def replay(
    profile: Profile,
    plan: Plan,
    records: Iterable[Record],
    answers: Sequence[Observation],
    *faults: Fault,
    seed: int = 1,
    piece: int = GROUP,
) -> tuple[Replayed, ...]:
    """Return what a board of `profile` with `faults` shows for each of `answers`.

    `records` are those of the run, a record Answered among them for each. So many characters as a
    `piece` follow one another without a pause; that matters only where the line's clock is wrong.
    """
    board = ReplayedBoard(plan, Board(profile, faults, seed), piece)
    wanted = {answer.step_id for answer in answers}
    shown: dict[str, Replayed] = {}
    for record in records:
        if isinstance(record, Answered) and record.step in wanted:
            shown[record.step] = board.shown()
        else:
            board.take(record)
    return tuple(shown[answer.step_id] for answer in answers)


def records_of_step(step: Step) -> list[Record]:
    """Return the records of a run in which `step` alone is sent and answered."""
    sent: list[Record] = [Sent(step.id, group.data) for group in step.groups]
    return [StepBegun(step.id), *sent, Answered(step.id, Answer())]


def records_of_chain(plan: Plan, step: Step) -> list[Record]:
    """Return the records of `step` and of those from whose screen it goes on."""
    chain = [step]
    while chain[0].continues and plan.index[chain[0].id] > 0:
        chain.insert(0, plan.steps[plan.index[chain[0].id] - 1])
    records: list[Record] = []
    for part in chain:
        records += [OptionSet(option, position) for option, position in part.settings]
        records += records_of_step(part)
    return records


def _differing(first: bytes, second: bytes) -> frozenset[int]:
    if first == second:
        return frozenset()
    pairs = enumerate(zip(first, second, strict=True))
    return frozenset(cell for cell, (one, two) in pairs if one != two)


class ReplayedBoard:
    """A board on which a run is played once more; a `piece` is as replay has it."""

    def __init__(self, plan: Plan, board: Board, piece: int = GROUP) -> None:
        self._plan, self._board, self._piece = plan, board, piece
        self._link = SimLink(board, CrankedClock())
        self._has_other_speed = board.wiring.speed_ratio != 1
        self._begun, self._is_begun_now = "", False
        self._bells_before, self._sent = 0, b""

    def take(self, record: Record) -> None:
        """Let what was done to the board by `record`, if anything, be done to it."""
        match record:
            case StepBegun():
                self._begin(record.step)
            case Sent():
                self._send(record)
            case OptionSet():
                self._set_option(record)

    @property
    def state(self) -> BoardState:
        """What the board holds."""
        return self._board.state

    def _begin(self, step_id: str) -> None:
        self._begun, self._is_begun_now, self._sent = step_id, True, b""
        self._board.take_sent()

    def _send(self, record: Sent) -> None:
        """Send bytes; the bells count from the first bytes on a fresh screen on."""
        if self._is_begun_now and not self._goes_on(record):
            self._bells_before = self._board.bells
        self._is_begun_now = False
        if not self._has_other_speed:
            self._board.receive(record.data)
            return
        for start in range(0, len(record.data), self._piece):
            self._link.write(record.data[start : start + self._piece])

    def _goes_on(self, record: Sent) -> bool:
        """Return whether the screen is that of the step before."""
        is_known = record.step in self._plan.index
        is_own = record.step == self._begun
        return is_own and is_known and self._plan.step(record.step).continues

    def _set_option(self, record: OptionSet) -> None:
        """Move a switch, where the board has it."""
        options = {str(option.name): option for option in self._board.profile.options}
        option = options.get(record.option)
        if option is not None and record.position in option.positions:
            self._board.set_option(record.option, record.position)

    def shown(self) -> Replayed:
        """Return what the board shows now."""
        self._sent += b"".join(data for _, data in self._board.take_sent())
        board = self._board
        bells = board.bells - self._bells_before
        codes = board.drawn()
        shown = Replayed(codes, board.cursor, bells, self._sent, board.state.offset)
        return shown._replace(misdrawn=board.misdrawn(codes))


def shown_as_wanted(wanted: Sought) -> Replayed:
    """Return what a board shows that shows what it must."""
    return Replayed(wanted.codes, wanted.cursor or (0, 0), wanted.bells, b"")
