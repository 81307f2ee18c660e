"""By which looks a fault is shown, in every way of playing and of seeing."""

from helpers.scripts import SINGLE, look, plan_of
from termprobe.board.faults.catalogue import fault as fault_named
from termprobe.diagnosis.evident import Evident, differing, evident_in, stuck_bits
from termprobe.diagnosis.playing import BothWays, chains_of, kept_codes, perform
from termprobe.diagnosis.shown import AS_WANTED, Sight

CELL = Sight(3, False, False, "a")
CURSOR = Sight(0, True, False, "b")
BELL = Sight(0, False, True, "c")
DOTS = Sight(0, False, False, "d", 9)


def test_a_look_shows_surely_what_it_shows_however_it_is_played():
    (dump, *_) = evident_in([BothWays((CELL, CELL, AS_WANTED), (CELL, AS_WANTED, CELL))])
    assert dump == Evident(surely=0b001, perhaps=0b111)


def test_cursor_bell_and_dots_are_seen_by_those_who_see_them():
    shown = (CELL, CURSOR, BELL, AS_WANTED, DOTS)
    ways = evident_in([BothWays(shown, shown)])
    assert [each.surely for each in ways] == [0b00001, 0b00011, 0b00101, 0b10001]
    assert differing(shown) == 0b10111


PLAN = plan_of(
    [
        look("stars", [{"pattern": "solid", "with": "*"}]),
        look("scrolled", [{"command": "down", "times": 30}, {"text": "U"}]),
        look("word", [{"text": "HELLO"}]),
    ]
)


def test_stuck_bits_are_those_that_played_boards_show():
    """Of cells over the whole screen, each bit at both levels."""
    chains = chains_of(PLAN)
    told = stuck_bits(kept_codes(SINGLE, chains))
    played = set()
    for row, column in ((0, 0), (0, 4), (7, 0), (12, 40), (23, 78), (23, 79)):
        for bit in range(7):
            for level in (0, 1):
                fault = fault_named(SINGLE, f"cell/stuck/{row}-{column}-{bit}/{level}")
                characters, *_ = evident_in([perform(SINGLE, chains, fault)])
                played.add(characters)
    assert played <= told
    assert Evident(0b001, 0b001) in played and len(told) < 60
