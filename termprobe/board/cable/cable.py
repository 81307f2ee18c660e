"""A cable between two ends, in time: what happens at one end reaches the other when it is due."""

import math
from collections.abc import Callable
from typing import NamedTuple

from termprobe.board.cable.board_side import CabledBoard
from termprobe.board.cable.host_side import CabledHost
from termprobe.link.wirings import AT_BOARD, AT_COMPUTER, WIRINGS, Pin, nets

Action = Callable[[float], None]


class _Planned(NamedTuple):
    """What happens to the cable at a moment."""

    at_s: float
    act: Action


class Cable:
    """A cable that is plugged in at both ends from `at_s` on; `wiring` is a name in WIRINGS."""

    def __init__(
        self, host: CabledHost, board: CabledBoard, wiring: str = "crossed", at_s: float = 0.0
    ) -> None:
        self.host, self.board = host, board
        self._ends = {AT_COMPUTER: host.end, AT_BOARD: board.end}
        self._planned: list[_Planned] = []
        self._is_plugged = False
        self._now_s = at_s
        self.plug(at_s, wiring)

    def plug(self, at_s: float, wiring: str) -> None:
        """Plug in a cable, in place of the one that was."""
        self.unplug(at_s)
        for net in nets(WIRINGS[wiring]):
            self._join(at_s, net)

    def _join(self, at_s: float, net: set[Pin]) -> None:
        """Join what hears in a group of pins to what drives; two that drive are not heard."""
        ends = [(self._ends[pin.side], pin.circuit) for pin in net]
        drivers = [end.outputs[circuit] for end, circuit in ends if circuit in end.outputs]
        hearers = [end.inputs[circuit] for end, circuit in ends if circuit in end.inputs]
        if len(drivers) == 1:
            for pin in hearers:
                drivers[0].join(at_s, pin)

    def unplug(self, at_s: float) -> None:
        """Pull the cable out at both ends; a character on its way is cut."""
        for end in self._ends.values():
            for pin in end.outputs.values():
                pin.part(at_s)

    def plan(self, at_s: float, act: Action) -> None:
        """Have `act(at_s)` done at a moment that has not come yet, even in mid-character."""
        self._planned.append(_Planned(at_s, act))
        self._planned.sort(key=lambda planned: planned.at_s)

    @property
    def next_s(self) -> float:
        """When there is something to do; for ever where nothing is known to come."""
        return min(self._planned_s, self.host.next_s, self.board.next_s)

    @property
    def _planned_s(self) -> float:
        if self._planned:
            return self._planned[0].at_s
        return math.inf

    def advance(self, at_s: float) -> None:
        """Let time come to `at_s`, each thing in its turn.

        A key that was pressed since the last call was pressed now.
        """
        while self._advance_one(at_s):
            pass
        self._now_s = at_s
        self.board.look(at_s)

    def _advance_one(self, limit_s: float) -> bool:
        """Do what is due next, up to `limit_s`; return whether something was."""
        planned_s, host_s, board_s = self._planned_s, self.host.next_s, self.board.next_s
        due_s = min(planned_s, host_s, board_s)
        if due_s > limit_s:
            return False
        now_s = self._now_s = max(due_s, self._now_s)
        if planned_s <= now_s:
            self._planned.pop(0).act(now_s)
        if host_s <= now_s:
            self.host.advance(now_s)
        if board_s <= now_s:
            self.board.advance(now_s)
        return True
