"""What decoder and counters of a board do to its memory while the steps of a plan are played.

They never ask the memory for anything. Boards that differ only from the memory on do the same to
it, and share a score.
"""

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from operator import methodcaller
from typing import NamedTuple

from termprobe.board.board import Board, BoardState
from termprobe.board.counters import Counted
from termprobe.board.link import SimLink
from termprobe.board.memory import Memory
from termprobe.board.sequencer import Decoding
from termprobe.board.wiring import Wiring
from termprobe.clock import CrankedClock
from termprobe.diagnosis.shown import Sought
from termprobe.profile.model import Profile

SEED = 1
"""Of what stands in a memory at power-up."""


@dataclass(frozen=True)
class PlayedStep:
    """A step as the board gets it."""

    step_id: str
    groups: tuple[bytes, ...]
    settings: tuple[tuple[str, str], ...]
    """(option, position) of the board's switches."""
    wanted: Sought | None
    """Of a look."""


PlayedChain = tuple[PlayedStep, ...]
"""A step with those that go on from its screen."""
Move = Callable[[Memory], None]
"""One thing that is done to a memory."""
Moves = tuple[Move, ...]


class ScoredStep(NamedTuple):
    """What a step, or what is left of one, does to the memory."""

    moves: Moves
    wanted: Sought | None
    """Of a look: what must then be shown."""
    cursor: tuple[int, int]
    """The counts of row and column at its end."""
    bells: int
    """How many have sounded for it."""


class ScoredChain(NamedTuple):
    """A chain played in both ways: on a board just switched on, and on one in use."""

    begun_alone: Moves
    """What its first group does."""
    begun_in_order: Moves
    is_alike: bool
    """Whether all that follows does the same in both ways."""
    rest_alone: tuple[ScoredStep, ...]
    rest_in_order: tuple[ScoredStep, ...]


Score = tuple[ScoredChain, ...]


def score_of(profile: Profile, wiring: Wiring, chains: Iterable[PlayedChain]) -> Score:
    """Return what a board of `profile`, wired so, does to its memory as `chains` are played."""
    composer = _Composer(profile, wiring)
    return tuple(composer.chain(chain) for chain in chains)


class NotingMemory(Memory):
    """Notes what is done to it; what it keeps never changes."""

    def __init__(self, profile: Profile, wiring: Wiring) -> None:
        super().__init__(profile, wiring, SEED)
        self._moves: list[Move] = []

    def take(self) -> Moves:
        """Return all that was done since the last call."""
        taken = tuple(self._moves)
        self._moves = []
        return taken

    def write(self, row: int, column: int, codes: bytes) -> None:
        self._moves.append(methodcaller("write", row, column, codes))

    def blank(self, row: int, start: int, stop: int) -> None:
        self._moves.append(methodcaller("blank", row, start, stop))

    def clear(self) -> None:
        self._moves.append(methodcaller("clear"))

    def light(self, step: int) -> None:
        self._moves.append(methodcaller("light", step))

    def scroll(self, step: int) -> None:
        self._moves.append(methodcaller("scroll", step))


class _Begun(NamedTuple):
    """A board on which the first group of a chain has been played."""

    moves: Moves
    state: BoardState
    bells: int
    """How many have sounded for it."""

    @property
    def moving(self) -> tuple[Counted, Decoding, int]:
        """What all that follows depends on."""
        counts = self.state.counts._replace(bells=self.bells)
        return counts, self.state.decoding, self.bells


class _Composer:
    """Plays chains on one board, and keeps the moves of each."""

    def __init__(self, profile: Profile, wiring: Wiring) -> None:
        self._memory = NotingMemory(profile, wiring)
        self._board = Board(profile, wiring=wiring, memory=self._memory)
        self._send = sender_to(self._board)
        self._at_power_up = self._board.state

    def chain(self, chain: PlayedChain) -> ScoredChain:
        """Play `chain` in both ways; the board goes on from where it was in use."""
        as_before = self._board.state
        alone = self._begun(chain, self._at_power_up)
        in_order = self._begun(chain, as_before)
        is_alike = alone.moving == in_order.moving
        rest_alone = () if is_alike else self._rest(chain, alone)
        rest = self._rest(chain, in_order)
        return ScoredChain(alone.moves, in_order.moves, is_alike, rest_alone or rest, rest)

    def _begun(self, chain: PlayedChain, state: BoardState) -> _Begun:
        """Play the first group of `chain` on the board in `state`."""
        self._board.state = state
        self._set(chain[0])
        self._send(chain[0].groups[:1])
        bells = self._board.bells - state.counts.bells
        return _Begun(self._memory.take(), self._board.state, bells)

    def _rest(self, chain: PlayedChain, begun: _Begun) -> tuple[ScoredStep, ...]:
        """Play what `begun` leaves of `chain`."""
        first, *others = chain
        self._board.state = begun.state
        bells_before = begun.state.counts.bells - begun.bells
        rest = [self._step(first, first.groups[1:], bells_before)]
        rest += [self._step(step, step.groups, self._board.bells) for step in others]
        return tuple(rest)

    def _step(self, step: PlayedStep, groups: Sequence[bytes], bells_before: int) -> ScoredStep:
        self._set(step)
        self._send(groups)
        bells = self._board.bells - bells_before
        return ScoredStep(self._memory.take(), step.wanted, self._board.counted, bells)

    def _set(self, step: PlayedStep) -> None:
        for option, position in step.settings:
            self._board.set_option(option, position)


def sender_to(board: Board) -> Callable[[Sequence[bytes]], None]:
    """Return what hands groups of bytes to `board`.

    Where its line's clock is wrong, each group is heard as other bytes.
    """
    if board.wiring.speed_ratio == 1:
        return lambda groups: board.receive(b"".join(groups))
    link = SimLink(board, CrankedClock())
    return lambda groups: _write_each(link, groups)


def _write_each(link: SimLink, groups: Sequence[bytes]) -> None:
    for data in groups:
        link.write(data)
