"""Plays the steps of a plan on boards with a fault, and tells what each look then shows.

It is played in two ways, for what a board with a fault shows may come from what it was sent before:
in order, all steps one after another on one board; and alone, each chain of steps on a board just
switched on. Where a chain's first group brings both to the same, the rest is played once.
"""

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from typing import Generic, NamedTuple, TypeVar

from termprobe.board.board import Board, BoardState
from termprobe.board.faults.model import Fault
from termprobe.board.generator import DOT_PARTS, Tube, has_wrong_dots
from termprobe.board.link import SimLink
from termprobe.board.wiring import DOT_BUSES, KEYBOARD_CODE, Wiring, wire
from termprobe.clock import CrankedClock
from termprobe.diagnosis.shown import Sight, Sought, shown_by, sight_of, wanted_of
from termprobe.plan.model import Look, Plan, Step
from termprobe.profile.model import Profile

Witnessed = TypeVar("Witnessed")
BESIDE_DISPLAY = ("keys", "parity", "echo_gate", "handshake_ignored", *DOT_PARTS)
"""What a Wiring has besides that has no part in which codes a screen shows of what is received."""
BUSES_BESIDE_DISPLAY = ("transmitter-data", KEYBOARD_CODE.where, *DOT_BUSES)


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


class BothWays(NamedTuple, Generic[Witnessed]):
    """What is told of each look of a plan on one board, in the order of the plan."""

    in_order: tuple[Witnessed, ...]
    alone: tuple[Witnessed, ...]


Performance = BothWays[Sight]
Witness = Callable[[Board, Sought, int], Witnessed]
"""Tells of a look by the board, what must be shown, and how many bells have sounded for it."""


def chains_of(plan: Plan) -> tuple[PlayedChain, ...]:
    """Return all of `plan` that is fitted and sends something, in order."""
    chains: list[list[PlayedStep]] = []
    for step in plan.steps:
        if step.not_fitted or not step.groups:
            continue
        if not step.continues or not chains:
            chains.append([])
        chains[-1].append(_played(step))
    return tuple(tuple(chain) for chain in chains)


def _played(step: Step) -> PlayedStep:
    wanted = None
    if isinstance(step, Look) and step.expected is not None:
        wanted = wanted_of(step.expected, step.asks_dots)
    return PlayedStep(step.id, tuple(group.data for group in step.groups), step.settings, wanted)


def looks_of(chains: Iterable[PlayedChain]) -> tuple[str, ...]:
    """Return the ids of the looks of which a Performance tells, in its order."""
    return tuple(step.step_id for chain in chains for step in chain if step.wanted is not None)


def perform(profile: Profile, chains: Sequence[PlayedChain], *faults: Fault) -> Performance:
    """Return what the looks of `chains` show on a board of `profile` with `faults`."""
    return _Player(Board(profile, faults), shown_by).perform(chains)


def kept_codes(profile: Profile, chains: Sequence[PlayedChain]) -> BothWays[bytes]:
    """Return the codes that the RAM of a good board gives at each look, in physical order."""
    player = _Player(Board(profile), lambda board, wanted, bells: board.read())
    return player.perform(chains)


class Stood(NamedTuple):
    """What a good board shows at one look."""

    codes: bytes
    cursor: tuple[int, int]
    bells: int
    wanted: Sought

    def drawn_by(self, tube: Tube) -> Sight:
        """Return how it differs where the codes are drawn by `tube`."""
        misdrawn = tube.misdrawn(self.codes)
        return sight_of(self.codes, self.cursor, self.bells, self.wanted, misdrawn)


def _stood(board: Board, wanted: Sought, bells: int) -> Stood:
    return Stood(board.drawn(), board.cursor, bells, wanted)


class Theatre:
    """Plays the same chains on many boards of one profile.

    Boards with wrong dots are not played: what they show is that of a good board, drawn otherwise.
    """

    def __init__(self, profile: Profile, chains: Sequence[PlayedChain]) -> None:
        self._profile, self._chains = profile, chains
        self.good = perform(profile, chains)
        self.stood: BothWays[Stood] = _Player(Board(profile), _stood).perform(chains)
        self._healthy = wire(profile)

    def perform(self, fault: Fault) -> Performance:
        """Return the Performance of a board with `fault`."""
        wiring = wire(self._profile)
        fault.apply(wiring)
        if not has_part_in_display(wiring, self._healthy):
            return self._drawn_by(wiring)
        board = Board(self._profile, wiring=wiring)
        return _Player(board, shown_by).perform(self._chains)

    def _drawn_by(self, wiring: Wiring) -> Performance:
        """Return the Performance of a board that shows the codes which a good one does."""
        if not has_wrong_dots(wiring):
            return self.good
        tube = Tube(self._profile.display.dots, wiring)
        in_order = tuple(one.drawn_by(tube) for one in self.stood.in_order)
        alone = tuple(one.drawn_by(tube) for one in self.stood.alone)
        return BothWays(in_order, alone)


def has_part_in_display(faulty: Wiring, healthy: Wiring) -> bool:
    """Return whether what makes the two wirings differ can change which codes a screen shows."""
    return _of_display(faulty) != _of_display(healthy)


def _of_display(wiring: Wiring) -> dict[str, object]:
    """Return what of a wiring has a part in which codes a screen shows of what is received."""
    parts = {name: part for name, part in vars(wiring).items() if name not in BESIDE_DISPLAY}
    buses = wiring.buses.items()
    parts["buses"] = {name: bus for name, bus in buses if name not in BUSES_BESIDE_DISPLAY}
    return parts


class _Begun(NamedTuple):
    """A board on which the first group of a chain has been played."""

    state: BoardState
    bells: int
    """How many have sounded for it."""


class _Player(Generic[Witnessed]):
    """Plays on one board, and lets `witness` tell of each look."""

    def __init__(self, board: Board, witness: Witness[Witnessed]) -> None:
        self._board, self._witness = board, witness
        self._send = sender_to(self._board)
        self._at_power_up = self._board.state

    def perform(self, chains: Sequence[PlayedChain]) -> BothWays[Witnessed]:
        in_order: list[Witnessed] = []
        alone: list[Witnessed] = []
        for chain in chains:
            played = self._in_both_ways(chain)
            in_order += played.in_order
            alone += played.alone
        return BothWays(tuple(in_order), tuple(alone))

    def _in_both_ways(self, chain: PlayedChain) -> BothWays[Witnessed]:
        self._set(chain[0])
        as_before = self._board.state
        alone = self._begun(chain, self._at_power_up)
        in_order = self._begun(chain, as_before)
        if self._goes_on_alike(alone, in_order):
            shown = self._rest(chain, in_order)
            return BothWays(shown, shown)
        shown_alone = self._rest(chain, alone)
        return BothWays(self._rest(chain, in_order), shown_alone)

    def _begun(self, chain: PlayedChain, state: BoardState) -> _Begun:
        """Play the first group of `chain` on the board in `state`."""
        self._board.state = state
        self._send(chain[0].groups[:1])
        return _Begun(self._board.state, self._board.bells - state.counts.bells)

    def _goes_on_alike(self, first: _Begun, second: _Begun) -> bool:
        """Return whether from here on both show the same, whatever they are sent.

        Cells that the display does not read may hold what they like.
        """
        if first.bells != second.bells or _moving(first.state) != _moving(second.state):
            return False
        return first.state.cells == second.state.cells or self._read(first) == self._read(second)

    def _read(self, begun: _Begun) -> bytes:
        self._board.state = begun.state
        return self._board.read()

    def _rest(self, chain: PlayedChain, begun: _Begun) -> tuple[Witnessed, ...]:
        """Play what `begun` leaves of `chain`; return what its looks show."""
        self._board.state = begun.state
        bells_before = begun.state.counts.bells - begun.bells
        first, *others = chain
        self._set(first)
        self._send(first.groups[1:])
        shown = self._shown(first, bells_before)
        for step in others:
            bells_before = self._board.bells
            self._set(step)
            self._send(step.groups)
            shown += self._shown(step, bells_before)
        return shown

    def _set(self, step: PlayedStep) -> None:
        for option, position in step.settings:
            self._board.set_option(option, position)

    def _shown(self, step: PlayedStep, bells_before: int) -> tuple[Witnessed, ...]:
        if step.wanted is None:
            return ()
        return (self._witness(self._board, step.wanted, self._board.bells - bells_before),)


def _moving(state: BoardState) -> tuple[object, ...]:
    """Return what moves with what is sent, beside the cells and the count of bells."""
    return state.offset, state.counts._replace(bells=0), state.decoding


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
