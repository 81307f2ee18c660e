"""Boards that are wrong in one way that no fault of the catalogue describes.

Each is made from one of the two models, by another profile or by another function in its table.
"""

import contextlib
from unittest import mock

from helpers.boards import changed, more
from termprobe.board.board import Board
from termprobe.board.counters import Counters
from termprobe.board.faults.model import make
from termprobe.board.functions import FUNCTIONS
from termprobe.board.wiring import Counting
from termprobe.plan.model import Look
from termprobe.terminal.actions import ACTIONS
from termprobe.terminal.reference import Reference
from termprobe.terminal.screen import differences

EFFECTS = {
    "stored": ("ignore", None),
    "left": ("left", "stay"),
    "down": ("down", "scroll"),
    "up": ("up", "stay"),
    "right": ("right", "stay"),
    "return": ("return", None),
    "clear": ("clear", None),
    "home": ("home", None),
}
"""What a code without a meaning can do to a board with these functions: action and edge."""


def looks_of(plan):
    """Return the looks that are asked where all is well: none that others spare."""
    fitted = {step.id for step in plan.steps if not step.not_fitted}
    looks = [step for step in plan.steps if isinstance(step, Look) and step.id in fitted]
    return [look for look in looks if not look.is_covered(fitted)]


def fails(board, look):
    """Tell whether the characters seen after `look` are not those expected."""
    board.receive(look.data)
    return bool(differences(look.expected.rows, board.screen().rows))


def failed_looks(board, plan):
    """Return the ids of the looks on which a character differs, each seen after the one before."""
    return [look.id for look in looks_of(plan) if fails(board, look)]


class ReferenceBoard:
    """The reference as a board. `hear` is what becomes of the bytes on their way in."""

    def __init__(self, profile, hear=bytes):
        self._reference, self._hear = Reference(profile), hear

    def receive(self, data):
        self._reference.feed(self._hear(data))

    def screen(self):
        return self._reference.screen()


def obeying(profile, code, effect):
    """Return a board on which `code`, without a meaning in `profile`, has an effect of EFFECTS."""
    action, edge = EFFECTS[effect]
    told = changed(profile, commands=[more("extra", (bytes([code]),), action, edge)])
    faults = []
    if effect == "stored":
        title = "a code without a meaning is stored"
        faults = [
            make("decoder/stored/extra", title, lambda wired: wired.also_written.add("extra"))
        ]
    return Board(told, faults)


@contextlib.contextmanager
def wrong_function(action, routine):
    """Let `routine` be what a board does for `action`, while the block lasts."""
    with mock.patch.dict(FUNCTIONS, {action: routine}):
        yield


@contextlib.contextmanager
def wrong_action(action, does):
    """Let `does` be what the reference does for `action`, while the block lasts."""
    with mock.patch.dict(ACTIONS, {action: does}):
        yield


@contextlib.contextmanager
def wrong_loading(loaded):
    """Let `loaded(counters, value, kept, last)` say what a counter holds after an address."""
    sound = Counters.loaded

    def wrong(counters, code, edge, kept, last):
        found = loaded(code - counters.coordinates.offset, last)
        if found is None:
            return sound(counters, code, edge, kept, last)
        return found

    with mock.patch.object(Counters, "loaded", wrong):
        yield


def losing(counting, line):
    """Return how a counter counts both ways that loses what goes into `line`."""
    low = (1 << line) - 1
    return Counting(
        *(
            tuple(after & low | before & ~low for before, after in enumerate(table))
            for table in counting
        )
    )
