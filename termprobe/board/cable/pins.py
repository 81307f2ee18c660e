"""The pins of an end, in time: what drives a wire, and what hears it."""

import math
from collections import deque
from typing import NamedTuple

from termprobe.board.cable.voltages import Levels


class LevelChange(NamedTuple):
    """From a moment on, a wire is at a level."""

    at_s: float
    is_space: bool


class InputPin:
    """What an end hears on a pin: the level up to now, and changes that lie ahead."""

    def __init__(self, levels: Levels) -> None:
        self.levels = levels
        self.is_space = False
        """The level up to the change that was taken last."""
        self._last = False
        self._ahead: deque[LevelChange] = deque()

    def change(self, at_s: float, is_space: bool) -> None:
        """Have it hear a space, or a mark, from `at_s` on; times must not run back."""
        if is_space != self._last:
            self._last = is_space
            self._ahead.append(LevelChange(at_s, is_space))

    def replace(self, at_s: float, is_space: bool) -> None:
        """Have it hear this from `at_s` on; what was to come later does not come."""
        while self._ahead and self._ahead[-1].at_s >= at_s:
            self._ahead.pop()
        self._last = self.is_space
        if self._ahead:
            self._last = self._ahead[-1].is_space
        self.change(at_s, is_space)

    def level_at(self, at_s: float) -> bool:
        """Return whether it is at space at `at_s`; changes up to then are taken."""
        ahead = self._ahead
        while ahead and ahead[0].at_s <= at_s:
            self.is_space = ahead.popleft().is_space
        return self.is_space

    def next_edge(self, at_s: float) -> LevelChange | None:
        """Take the first change up to `at_s`, and return it; None where there is none."""
        if not self._ahead or self._ahead[0].at_s > at_s:
            return None
        change = self._ahead.popleft()
        self.is_space = change.is_space
        return change

    @property
    def next_s(self) -> float:
        """When it changes next, for ever where nothing is known to come."""
        if self._ahead:
            return self._ahead[0].at_s
        return math.inf


class _Joint(NamedTuple):
    """A pin that hears another one."""

    pin: InputPin
    of_mark: bool
    """What it hears of a mark: True where it takes that for a space."""
    of_space: bool


class OutputPin:
    """What an end drives on a pin, at first a mark; what is joined to it hears it."""

    def __init__(self, levels: Levels) -> None:
        self._levels = levels
        self._now = False
        self._ahead: deque[LevelChange] = deque()
        self._joints: list[_Joint] = []

    def drive(self, at_s: float, is_space: bool) -> None:
        """Drive a space, or a mark, from `at_s` on; times must not run back."""
        self._ahead.append(LevelChange(at_s, is_space))
        for pin, of_mark, of_space in self._joints:
            pin.change(at_s, of_space if is_space else of_mark)

    def cut(self, at_s: float, is_space: bool) -> None:
        """Drive a space, or a mark, from `at_s` on instead of all that was to be driven."""
        self._now = is_space
        self._ahead.clear()
        for pin, of_mark, of_space in self._joints:
            pin.replace(at_s, of_space if is_space else of_mark)

    def join(self, at_s: float, pin: InputPin) -> None:
        """Join `pin` to it from `at_s` on."""
        self.pass_time(at_s)
        heard = [pin.levels.hears_space(self._levels.driven_v(level)) for level in (False, True)]
        self._joints.append(_Joint(pin, *heard))
        for change in (LevelChange(at_s, self._now), *self._ahead):
            pin.change(change.at_s, heard[change.is_space])

    def part(self, at_s: float) -> None:
        """Part it from all that is joined to it: these pins are open then."""
        for joint in self._joints:
            joint.pin.replace(at_s, joint.pin.levels.hears_space(None))
        self._joints.clear()

    def pass_time(self, at_s: float) -> None:
        """Note that time has come to `at_s`: what lies before need not be kept."""
        ahead = self._ahead
        while ahead and ahead[0].at_s <= at_s:
            self._now = ahead.popleft().is_space
