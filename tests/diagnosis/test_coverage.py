"""What the looks of a plan prove, against the dictionary and worked-out numbers."""

from helpers.scripts import SINGLE, look, plan_of
from termprobe.diagnosis.coverage import BlockCoverage, coverage_of
from termprobe.diagnosis.dictionary import fault_dictionary

PLAN = plan_of(
    [
        look("parity", [{"pattern": "address-parity", "with": "_?"}]),
        look("stars", [{"pattern": "solid", "with": "*"}]),
        look("u", [{"pattern": "solid", "with": "U"}]),
        look("word", [{"text": "HELLO"}]),
    ]
)
DICTIONARY = fault_dictionary(SINGLE, PLAN)
FOUND = coverage_of(DICTIONARY, SINGLE)


def test_each_fault_of_the_display_is_shown_or_missed_and_no_other_is_counted():
    names = {*FOUND.detected, *FOUND.missed}
    assert len(names) == FOUND.faults == len(FOUND.detected) + len(FOUND.missed)
    assert {"bank-0-data/stuck/0/1", "baud/ratio/2"} <= set(FOUND.detected)
    assert {"ram-address/swapped/0-1", "decoder/dead/bell"} <= set(FOUND.missed)
    where = {name.split("/")[0] for name in names}
    assert not where & {"key-matrix", "keyboard-code", "transmitter-data", "parity", "echo-gate"}


def test_two_complementary_fields_show_every_stuck_data_line():
    """2Ah and 55h hold each of the seven bits at both levels."""
    stuck = [f"bank-1-data/stuck/{line}/{level}" for line in range(7) for level in (0, 1)]
    assert set(stuck) <= set(FOUND.detected)


def test_blocks_are_counted_by_themselves_the_worst_first():
    shares = [block.share for block in FOUND.by_block.values()]
    assert shares == sorted(shares) and 0 <= shares[0] < shares[-1] == 1
    # 11 lines: 22 stuck, 110 bridged and 55 swapped ones, of which those swapped are never seen.
    assert FOUND.by_block["ram-address"] == BlockCoverage(187, 132)
    assert sum(block.faults for block in FOUND.by_block.values()) == FOUND.faults
    assert sum(block.detected for block in FOUND.by_block.values()) == len(FOUND.detected)


def test_the_smallest_set_shows_all_that_is_shown_and_no_smaller_one_does():
    assert FOUND.is_smallest and 1 <= len(FOUND.smallest_set) <= 4

    def shown_by(looks):
        index = [DICTIONARY.looks.index(each) for each in looks]
        return {
            name
            for name in FOUND.detected
            if any(DICTIONARY.faults[name].in_order[number].picture for number in index)
        }

    assert shown_by(FOUND.smallest_set) == set(FOUND.detected)
    for left_out in FOUND.smallest_set:
        fewer = [each for each in FOUND.smallest_set if each != left_out]
        assert shown_by(fewer) < set(FOUND.detected)


def test_classes_are_what_can_be_told_apart():
    assert 1 < FOUND.classes <= len(FOUND.detected)
    # Stuck at either level, a line that all cells share lets the same ones be seen.
    first, second = (DICTIONARY.faults[f"ram-address/stuck/10/{level}"] for level in (0, 1))
    assert first == second
