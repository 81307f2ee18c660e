"""What looks show on faulty boards, against boards played in the plainest way, fault by fault."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from helpers.boards import changed, more
from helpers.examples import one_in
from helpers.plain_play import assert_same
from helpers.scripts import SINGLE, acceptance, look, plan_of
from termprobe.board.faults.catalogue import catalogue
from termprobe.board.faults.catalogue import fault as fault_named
from termprobe.diagnosis.fault_names import parsed
from termprobe.diagnosis.playing import Theatre, chains_of, kept_codes, looks_of, perform
from termprobe.diagnosis.shown import AS_WANTED

SMALL = [
    look("word", [{"text": "HELLO"}, {"command": "bell"}, {"text": "!"}]),
    look(
        "on", [{"command": "down", "times": 25}, {"text": "NEW"}, {"command": "bell"}], start="keep"
    ),
    look("middle", [{"command": "address", "at": [4, 4]}, {"text": "X"}], kind="ask"),
    look("rows", [{"pattern": "row-tags"}]),
    look("local", [{"text": "NOT SEEN"}], settings={"line": "local"}),
    look("lost", [{"command": "insert-line"}]),
    look("back", [{"text": "ABC"}, {"command": "left", "times": 2}, {"bytes": "ESC"}]),
    look("last", [{"text": "Z"}]),
]
PLAN, ACCEPTANCE = plan_of(SMALL), acceptance()
FAULTS = catalogue(SINGLE)
CELLS = ("cell/stuck/0-3-1/0", "cell/stuck/23-79-6/1")


def test_the_looks_that_are_fitted_are_played_in_chains():
    chains = chains_of(PLAN)
    assert [[step.step_id for step in chain] for chain in chains] == [
        ["word", "on"],
        ["middle"],
        ["rows"],
        ["back"],
        ["last"],
        ["local"],
    ]
    assert looks_of(chains) == ("word", "on", "rows", "back", "last", "local")


def test_a_good_board_shows_what_is_wanted_of_acceptance():
    good = perform(SINGLE, chains_of(ACCEPTANCE))
    assert set(good.in_order) == set(good.alone) == {AS_WANTED}


def test_a_fault_of_each_kind_shows_on_a_small_script_what_is_seen_on_a_plain_board():
    """Every tenth is tried as well, and with acceptance one in twelve."""
    theatre, pictures = Theatre(SINGLE, chains_of(PLAN)), {}
    of_kinds = {parsed(name)[:2]: fault for name, fault in FAULTS.items()}
    others = list(FAULTS.values())[::10]
    cells = [fault_named(SINGLE, name) for name in CELLS]
    for fault in (*of_kinds.values(), *others, *cells):
        assert_same(theatre.perform(fault), SINGLE, PLAN, fault, pictures)


THEATRE = Theatre(SINGLE, chains_of(ACCEPTANCE))


@given(st.sampled_from(sorted(FAULTS)))
def test_a_fault_shows_in_acceptance_what_is_seen_on_a_plain_board(name):
    assert_same(THEATRE.perform(FAULTS[name]), SINGLE, ACCEPTANCE, name, {})


@pytest.mark.slow
def test_faults_of_all_blocks_show_in_acceptance_what_is_seen_on_a_plain_board():
    """Of the faults that leave the display as it is every tenth is played plainly."""
    pictures, unseen = {}, 0
    for fault in one_in(12, FAULTS.values()):
        performance = THEATRE.perform(fault)
        unseen += performance is THEATRE.good
        if performance is not THEATRE.good or unseen % 10 == 0:
            assert_same(performance, SINGLE, ACCEPTANCE, fault, pictures)


OTHER = changed(
    SINGLE,
    {"down": "wrap", "left": "previous-row"},
    (more("erase", (b"\x1bY",), "erase-to-end-of-display"),),
    {"rows": 12, "columns": 40, "power_up": "blank"},
    last_column="pending",
)
OTHER_PLAN = acceptance(OTHER)


@given(st.sampled_from(sorted(catalogue(OTHER))))
def test_a_fault_of_another_kind_of_board_shows_what_is_seen_on_a_plain_one(name):
    performance = perform(OTHER, chains_of(OTHER_PLAN), fault_named(OTHER, name))
    assert_same(performance, OTHER, OTHER_PLAN, name, {})


def test_what_has_no_part_in_the_display_shows_what_a_good_board_shows():
    theatre = Theatre(SINGLE, chains_of(PLAN))
    for name in ("key-matrix/row-open/0", "parity/inverted", "transmitter-data/stuck/0/1"):
        assert theatre.perform(FAULTS[name]) is theatre.good
    assert theatre.perform(FAULTS["bank-0-data/stuck/0/1"]) != theatre.good


def test_what_the_cells_of_a_good_board_keep_is_told_in_physical_order():
    kept = kept_codes(SINGLE, chains_of(PLAN))
    by_look = dict(zip(looks_of(chains_of(PLAN)), kept.in_order, strict=True))
    assert by_look["word"].startswith(b"HELLO!") and by_look["rows"].startswith(b"A" * 80)
    # 25 rows down the screen has scrolled twice: its last row is the second physical one.
    assert by_look["on"][80:].startswith(b"      NEW")
