"""Every fault of the simulated board shows in something a careful builder tries.

Or it is known why nobody can see it.
"""

import functools
import random

import pytest

from helpers.boards import PROFILE, at, faulty, page
from helpers.examples import one_in
from termprobe.board.board import Board
from termprobe.board.faults.catalogue import blocks, catalogue
from termprobe.board.link import SimLink
from termprobe.clock import CrankedClock
from termprobe.link.base import LineFormat
from termprobe.profile.key_codes import presses

LINE = LineFormat(9600, 7, "even", 1)
CATALOGUE = catalogue(PROFILE)


def undetectable(name):
    """Return why nobody can see the fault `name`, or an empty string."""
    where, kind = name.split("/")[:2]
    if where.endswith("-address") and where != "glyph-address" and kind == "swapped":
        return "writing, clearing and showing pass the same lines: what strays is looked for there"
    if name == "decoder/also-written/clear":
        return "the code is stored before the screen is cleared"
    if name == "shift-register/stuck/5/0":
        return "the last column of a cell is the gap, which is dark"
    return ""


def stimuli():
    """Yield bytes that a careful builder sends, the strongest looks first."""
    chance = random.Random(7)
    yield page(lambda row, column: 0x21 + (row * 80 + column) % 89)
    yield b"\x1a" + bytes(
        chance.choices([*range(0x20, 0x7F), 0x08, 0x0A, 0x0B, 0x0C, 0x0D, 0x1E, 0x07], k=9000)
    )
    yield b"\x1a" + b"top" + at(23, 0) + b"A\r\nB"
    yield b"\x1a" + b"".join(
        at(chance.randrange(24), chance.randrange(80)) + bytes([chance.randrange(0x21, 0x7F)])
        for _ in range(800)
    )
    yield b"\x1a" + at(9, 9) + b"A\x07B\x1a"
    yield b"\x1a" + at(9, 9) + b"A\x1eB"
    yield b"\x1a" + at(20, 70) + b"\v" * 9 + b"\b" * 64 + b"A"
    for command in (
        b"\x07",
        b"\x08",
        b"\x0a",
        b"\x0b",
        b"\x0c",
        b"\x0d",
        b"\x1a",
        b"\x1e",
        at(3, 4),
        b"\x1bT",
        b"\x1bY",
    ):
        around = b"\x1atop" + at(10, 0) + b"low" + at(9, 20) + b"end"
        yield around + at(9, 9) + b"A" + command + b'!"B'


@functools.cache
def healthy_answers(tried):
    return list(answers(Board(PROFILE), tried))


def answers(board, tried):
    """Yield what the board shows and sends after each of `tried`, then in half duplex."""
    clock = CrankedClock()
    link = SimLink(board, clock, LINE)
    for stimulus in tried:
        if stimulus is WALK:
            for key, modifiers, _ in PRESSES * 2:
                board.press(key, modifiers)
            board.press("break")
            at_once = link.read(0)
            clock.sleep_until(clock.now_s() + 1)
            yield [(received.data, received.error) for received in at_once + link.read(0)]
        else:
            link.write(stimulus)
            yield board.screen()
    board.set_option("duplex", "half")
    board.press("q")
    yield board.screen()


WALK = None
"""Stands for a walk over the keyboard, twice."""
STIMULI = tuple(stimuli())
KEYS_FIRST, KEYS_LAST = (WALK, *STIMULI), (*STIMULI, WALK)
SHOWN_BY_KEYS = ("key-matrix", "keyboard-code", "transmitter-data", "parity")
"""Blocks of which faults show in what the keyboard sends."""
PRESSES = presses(PROFILE.keyboard)


@pytest.mark.parametrize("where", blocks())
def test_every_fault_of_a_block_changes_something_or_nobody_can_see_it(where):
    tried = KEYS_LAST
    if where in SHOWN_BY_KEYS:
        tried = KEYS_FIRST
    healthy = healthy_answers(tried)
    of_block = [name for name, found in CATALOGUE.items() if found.block == where]
    for name in one_in(3, of_block):
        faulty_answers = answers(Board(PROFILE, (CATALOGUE[name],)), tried)
        pairs = zip(healthy, faulty_answers, strict=True)
        shows = any(was != now for was, now in pairs)
        assert shows != bool(undetectable(name)), (name, shows, undetectable(name))


def test_stuck_at_0_and_at_1_of_an_address_line_look_the_same():
    """Shared by writing and showing, it makes the same pairs of cells one at either level."""
    for line in range(11):
        both = [faulty(f"ram-address/stuck/{line}/{level}") for level in "01"]
        for stimulus in (
            page(lambda row, column: 0x21 + (row * 80 + column) % 61),
            b"\n" * 9 + b"tail",
        ):
            for board in both:
                board.receive(stimulus)
            assert both[0].screen() == both[1].screen(), line
