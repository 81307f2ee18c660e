"""A board that is given texts on a blank screen, with the cursor where it is wanted.

Boards that differ only from the memory on do the same to it: that is worked out once.
"""

from typing import Protocol

from termprobe.board.board import Board
from termprobe.board.counters import Counted
from termprobe.board.memory import BLANK, Memory
from termprobe.board.wiring import Wiring, wire
from termprobe.diagnosis.playing import before_memory
from termprobe.diagnosis.score import SEED, Moves, NotingMemory, sender_to
from termprobe.profile.model import Profile


class BlankBoard(Protocol):
    """What shows texts, each on a blank screen."""

    def shown(self, cursor: Counted, data: bytes) -> bytes:
        """Return the codes that are drawn where `data` is sent with the cursor there."""


class BlankBoards:
    """Makes boards of one profile."""

    def __init__(self, profile: Profile) -> None:
        self._profile, healthy = profile, wire(profile)
        self._noted = _Noted(profile, healthy)
        self._before = before_memory(healthy)

    def wired(self, wiring: Wiring) -> BlankBoard:
        """Return the board that is wired so."""
        if before_memory(wiring) == self._before:
            return _MemoryAlone(self._profile, wiring, self._noted)
        return _WholeBoard(self._profile, wiring)


def _blanked(profile: Profile, wiring: Wiring) -> Memory:
    """Return a memory in which all is blank, also what clearing does not reach."""
    memory = Memory(profile, wiring, SEED)
    memory.restore(0, bytes([BLANK]) * len(memory.cells))
    memory.clear()
    return memory


class _WholeBoard:
    def __init__(self, profile: Profile, wiring: Wiring) -> None:
        self._board = Board(profile, wiring=wiring, memory=_blanked(profile, wiring))
        self._blank, self._send = self._board.state, sender_to(self._board)

    def shown(self, cursor: Counted, data: bytes) -> bytes:
        self._board.state = self._blank._replace(counts=cursor)
        self._send([data])
        return self._board.drawn()


class _Noted:
    """What a healthy board does to its memory for a text."""

    def __init__(self, profile: Profile, wiring: Wiring) -> None:
        self._memory = NotingMemory(profile, wiring)
        self._board = Board(profile, wiring=wiring, memory=self._memory)
        self._at_first, self._known = self._board.state, dict[tuple[Counted, bytes], Moves]()

    def moves(self, cursor: Counted, data: bytes) -> Moves:
        """Return it, for `data` that is sent with the cursor there."""
        if (cursor, data) not in self._known:
            self._memory.take()
            self._board.state = self._at_first._replace(counts=cursor)
            self._board.receive(data)
            self._known[cursor, data] = self._memory.take()
        return self._known[cursor, data]


class _MemoryAlone:
    def __init__(self, profile: Profile, wiring: Wiring, noted: _Noted) -> None:
        self._memory, self._noted = _blanked(profile, wiring), noted
        self._blank = self._memory.cells

    def shown(self, cursor: Counted, data: bytes) -> bytes:
        self._memory.restore(0, self._blank)
        for move in self._noted.moves(cursor, data):
            move(self._memory)
        return self._memory.drawn()


def code_of(board: BlankBoard, code: int, cursor: Counted, columns: int) -> int:
    """Return the code that is drawn in a cell where `code` is sent."""
    return board.shown(cursor, bytes([code]))[cursor.row * columns + cursor.column]
