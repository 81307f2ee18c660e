"""What is done to a memory while steps are played: boards that differ behind it do the same."""

from hypothesis import given
from hypothesis import strategies as st

from helpers.examples import examples
from helpers.scripts import SINGLE, look, plan_of
from termprobe.board.faults.catalogue import catalogue
from termprobe.board.memory import Memory, rows_of
from termprobe.board.wiring import wire
from termprobe.diagnosis.playing import chains_of
from termprobe.diagnosis.score import SEED, score_of

CHAINS = chains_of(
    plan_of(
        [
            look("word", [{"text": "HELLO"}, {"command": "bell"}, {"text": "!"}]),
            look("on", [{"command": "down", "times": 25}, {"text": "NEW"}], start="keep"),
            look("middle", [{"command": "address", "at": [4, 4]}, {"text": "X"}]),
        ]
    )
)
BEHIND = (
    "bank-0-data",
    "bank-1-data",
    "glyph-address",
    "ram-address",
    "bank-0-address",
    "bank-1-address",
    "bank-select",
    "scroll",
)


def score(name=None):
    wiring = wire(SINGLE)
    if name:
        catalogue(SINGLE)[name].apply(wiring)
    return score_of(SINGLE, wiring, CHAINS)


GOOD = score()
FAULTS = sorted(name for name in catalogue(SINGLE) if name.split("/")[0] in BEHIND)


@examples(20)
@given(st.sampled_from(FAULTS))
def test_a_fault_of_the_memory_changes_nothing_of_what_is_done_to_it(name):
    assert repr(score(name)) == repr(GOOD)


def test_a_fault_before_the_memory_changes_it():
    assert repr(score("decoder/dead/bell")) != repr(GOOD)
    assert repr(score("receiver-data/stuck/0/1")) != repr(GOOD)


def test_the_moves_made_on_a_memory_give_the_screen_the_cursor_and_the_bells():
    memory, chain = Memory(SINGLE, wire(SINGLE), SEED), GOOD[0]
    for moves in (chain.begun_alone, *(step.moves for step in chain.rest_alone)):
        for move in moves:
            move(memory)
    word, on = chain.rest_alone
    assert word.bells == 1 and word.cursor == (0, 6)
    assert on.bells == 0 and on.cursor == (23, 9)
    rows = rows_of(memory.drawn(), memory.columns)
    assert rows[23].rstrip() == "      NEW" and rows[0].strip() == ""


def test_a_chain_that_begins_with_a_clear_goes_on_alike_in_both_ways():
    assert all(chain.is_alike for chain in GOOD)
    assert all(chain.rest_alone is chain.rest_in_order for chain in GOOD)
