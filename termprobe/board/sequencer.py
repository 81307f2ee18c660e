"""Lets codes act one after another: each is stored, obeyed, or latched for a command under way."""

import re
from collections.abc import Callable
from functools import partial
from typing import NamedTuple

from termprobe.board.counters import Counters
from termprobe.board.decoder import IDLE, STORED, CodingPart, Effect, States
from termprobe.board.functions import obey
from termprobe.profile.model import Command


class Decoding(NamedTuple):
    """How far the decoder has come with what it takes."""

    state: int = IDLE
    command: Command | None = None
    """That is under way."""
    wanted: tuple[CodingPart, ...] = ()
    """What it still takes."""
    latched: tuple[tuple[str, int], ...] = ()
    """Slots of it that have been filled, each with its code."""


AT_REST = Decoding()


class Sequencer:
    """The decoder at work on the counters of one board."""

    def __init__(self, states: States, counters: Counters) -> None:
        self._states, self._counters = states, counters
        self._at_once = [_act_at_once(effect, counters) for effect in states[IDLE]]
        self._plain_run = re.compile(_plain_run(states[IDLE])).match
        self.decoding = AT_REST

    @property
    def decoding(self) -> Decoding:
        """How far it has come; it can be set."""
        if self._command is None:
            return Decoding(self._state)
        latched = tuple(self._latched.items())
        return Decoding(self._state, self._command, self._wanted, latched)

    @decoding.setter
    def decoding(self, decoding: Decoding) -> None:
        self._state, self._command, self._wanted, latched = decoding
        self._latched = dict(latched)
        self._note_whether_busy()

    def take(self, codes: bytes) -> None:
        """Let the decoder see `codes`, as they leave the receiver's lines."""
        at_once, position, end = self._at_once, 0, len(codes)
        while position < end:
            if self._busy:
                self._take_one(codes[position])
            elif (act := at_once[codes[position]]) is not None:
                act()
            elif run := self._plain_run(codes, position):
                self._counters.store(run.group())
                position = run.end()
                continue
            else:
                self._take_one(codes[position])
            position += 1

    def _take_one(self, code: int) -> None:
        if self._command is not None:
            self._latch(self._command, code)
        else:
            self._begin(self._states[self._state][code], code)
        self._note_whether_busy()

    def _note_whether_busy(self) -> None:
        self._busy = self._command is not None or self._state != IDLE

    def _begin(self, effect: Effect, code: int) -> None:
        self._state = effect.next_state
        if effect.stores:
            self._counters.store(bytes([code]))
        if effect.command is not None:
            self._latched = {}
            self._go_on(effect.command, effect.wanted)

    def _latch(self, command: Command, code: int) -> None:
        """Take one code that belongs to the command under way."""
        expected, *rest = self._wanted
        if isinstance(expected, str):
            self._latched[expected] = code
        elif expected != code:
            self._command = None
            return
        self._go_on(command, tuple(rest))

    def _go_on(self, command: Command, wanted: tuple[CodingPart, ...]) -> None:
        """Wait for what `command` still takes; carry it out where that is nothing."""
        if wanted:
            self._command, self._wanted = command, wanted
            return
        self._command = None
        obey(self._counters, command, self._latched)


def _act_at_once(effect: Effect, counters: Counters) -> Callable[[], None] | None:
    """Return how to carry out the command of one code, None where `effect` is something else."""
    if effect.command is None or effect.wanted or effect.stores:
        return None
    return partial(obey, counters, effect.command, {})


def _plain_run(effects: list[Effect]) -> bytes:
    """Return a pattern of codes that are stored and do nothing else."""
    plain = bytes(code for code, effect in enumerate(effects) if effect is STORED)
    if not plain:
        return b"(?!)"
    return b"[" + re.escape(plain) + b"]+"
