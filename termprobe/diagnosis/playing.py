"""Plays the steps of a plan on boards with a fault, and tells what each look then shows.

It is played in two ways, for what a board with a fault shows may come from what it was sent before:
in order, all steps one after another on one board; and alone, each chain of steps on a board just
switched on. Where a chain's first group brings both to the same, the rest is played once.

A board plays in two halves: decoder and counters make a score of what they do to the memory, and
the memory performs it. Of most faults the first half is that of a good board.
"""

from collections.abc import Callable, Iterable, Sequence
from typing import Generic, NamedTuple, TypeVar

from termprobe.board.faults.model import Fault
from termprobe.board.generator import DOT_PARTS, Tube, has_wrong_dots
from termprobe.board.memory import BEHIND_COUNTERS, Memory
from termprobe.board.wiring import DOT_BUSES, KEYBOARD_CODE, Wiring, wire
from termprobe.diagnosis.score import (
    SEED,
    Moves,
    PlayedChain,
    PlayedStep,
    Score,
    ScoredChain,
    ScoredStep,
    score_of,
)
from termprobe.diagnosis.shown import Sight, Sought, sight_of, wanted_of
from termprobe.plan.model import Look, Plan, Step
from termprobe.profile.model import Profile

Witnessed = TypeVar("Witnessed")
BESIDE_DISPLAY = ("keys", "parity", "echo_gate", "handshake_ignored", *DOT_PARTS)
"""What a Wiring has besides that has no part in which codes a screen shows of what is received."""
BUSES_BESIDE_DISPLAY = ("transmitter-data", KEYBOARD_CODE.where, *DOT_BUSES)
BUSES_BEFORE_MEMORY = ("receiver-data",)


class BothWays(NamedTuple, Generic[Witnessed]):
    """What is told of each look of a plan on one board, in the order of the plan."""

    in_order: tuple[Witnessed, ...]
    alone: tuple[Witnessed, ...]


Performance = BothWays[Sight]
Witness = Callable[[Memory, ScoredStep], Witnessed]
"""Tells of a look by what the memory holds then."""


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
    wiring = wire(profile)
    for fault in faults:
        fault.apply(wiring)
    return _performed(profile, wiring, score_of(profile, wiring, chains))


def kept_codes(profile: Profile, chains: Sequence[PlayedChain]) -> BothWays[bytes]:
    """Return the codes that the RAM of a good board gives at each look, in physical order."""
    wiring = wire(profile)
    memory = Memory(profile, wiring, SEED)
    performer = _Performer(memory, lambda memory, look: memory.read())
    return performer.perform(score_of(profile, wiring, chains))


class Stood(NamedTuple):
    """What a good board shows at one look."""

    codes: bytes
    cursor: tuple[int, int]
    bells: int
    wanted: Sought

    def drawn_by(self, tube: Tube) -> Sight:
        """Return how it differs where the codes are drawn by `tube`."""
        misdrawn = tube.misdrawn(self.codes, self.wanted.variant)
        return sight_of(self.codes, self.cursor, self.bells, self.wanted, misdrawn)


def _stood(memory: Memory, look: ScoredStep) -> Stood:
    assert look.wanted is not None
    return Stood(memory.drawn(), memory.cursor(*look.cursor), look.bells, look.wanted)


class Theatre:
    """Plays the same chains on many boards of one profile.

    Boards with wrong dots are not played: what they show is that of a good board, drawn otherwise.
    """

    def __init__(self, profile: Profile, chains: Sequence[PlayedChain]) -> None:
        self._profile, self._chains = profile, chains
        self._healthy = wire(profile)
        self._score = score_of(profile, self._healthy, chains)
        self.good = _performed(profile, self._healthy, self._score)
        memory = Memory(profile, self._healthy, SEED)
        self.stood: BothWays[Stood] = _Performer(memory, _stood).perform(self._score)

    def perform(self, fault: Fault) -> Performance:
        """Return the Performance of a board with `fault`."""
        wiring = wire(self._profile)
        fault.apply(wiring)
        if not has_part_in_display(wiring, self._healthy):
            return self._drawn_by(wiring)
        score = self._score
        if before_memory(wiring) != before_memory(self._healthy):
            score = score_of(self._profile, wiring, self._chains)
        return _performed(self._profile, wiring, score)

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


def before_memory(wiring: Wiring) -> dict[str, object]:
    """Return what of a wiring has a part in what is done to the memory."""
    parts = _of_display(wiring)
    del parts["stuck_bits"]
    parts["missing"] = wiring.missing.difference(BEHIND_COUNTERS)
    parts["buses"] = [wiring.buses[name] for name in BUSES_BEFORE_MEMORY]
    return parts


def _performed(profile: Profile, wiring: Wiring, score: Score) -> Performance:
    tube = Tube(profile.display.dots, wiring)
    memory = Memory(profile, wiring, SEED)
    return _Performer(memory, lambda *look: _stood(*look).drawn_by(tube)).perform(score)


class _Kept(NamedTuple):
    """What a memory holds at one moment."""

    offset: int
    cells: bytes


class _Performer(Generic[Witnessed]):
    """Lets one memory perform a score, and lets `witness` tell of each look."""

    def __init__(self, memory: Memory, witness: Witness[Witnessed]) -> None:
        self._memory, self._witness = memory, witness
        self._at_power_up = self._kept

    @property
    def _kept(self) -> _Kept:
        return _Kept(self._memory.offset, self._memory.cells)

    def perform(self, score: Score) -> BothWays[Witnessed]:
        in_order: list[Witnessed] = []
        alone: list[Witnessed] = []
        for chain in score:
            performed = self._in_both_ways(chain)
            in_order += performed.in_order
            alone += performed.alone
        return BothWays(tuple(in_order), tuple(alone))

    def _in_both_ways(self, chain: ScoredChain) -> BothWays[Witnessed]:
        as_before = self._kept
        alone = self._begun(chain.begun_alone, self._at_power_up)
        in_order = self._begun(chain.begun_in_order, as_before)
        if chain.is_alike and self._goes_on_alike(alone, in_order):
            shown = self._rest(chain.rest_in_order, in_order)
            return BothWays(shown, shown)
        shown_alone = self._rest(chain.rest_alone, alone)
        return BothWays(self._rest(chain.rest_in_order, in_order), shown_alone)

    def _begun(self, moves: Moves, kept: _Kept) -> _Kept:
        """Play what the first group of a chain does to a memory that holds `kept`."""
        self._memory.restore(*kept)
        self._make(moves)
        return self._kept

    def _make(self, moves: Moves) -> None:
        memory = self._memory
        for move in moves:
            move(memory)

    def _goes_on_alike(self, first: _Kept, second: _Kept) -> bool:
        """Return whether from here on both show the same, whatever is done to them.

        Cells that the display does not read may hold what they like.
        """
        if first.offset != second.offset:
            return False
        return first.cells == second.cells or self._read(first) == self._read(second)

    def _read(self, kept: _Kept) -> bytes:
        self._memory.restore(*kept)
        return self._memory.read()

    def _rest(self, steps: Iterable[ScoredStep], begun: _Kept) -> tuple[Witnessed, ...]:
        """Play `steps` on a memory that holds what was `begun`; return what their looks show."""
        self._memory.restore(*begun)
        shown = []
        for step in steps:
            self._make(step.moves)
            if step.wanted is not None:
                shown.append(self._witness(self._memory, step))
        return tuple(shown)
