"""How common each fault is: every one of the catalogue has a weight with a source."""

import pytest

from helpers.scripts import SINGLE
from termprobe.board.faults.catalogue import catalogue, fault
from termprobe.diagnosis.causes import (
    ALL_CELLS,
    NO_CAUSE,
    OF_DISPLAY,
    cause_of,
    cause_of_cell,
    weight_of,
)


def test_every_fault_is_a_cause_with_a_weight():
    causes = [cause_of(one) for one in catalogue(SINGLE).values()]
    assert all(0 < one.weight < NO_CAUSE.weight for one in causes)
    assert all(weighed.source for weighed in OF_DISPLAY.values())


def test_ram_comes_before_other_lines_and_stuck_ones_before_lines_that_touch():
    names = ["bank-0-data/stuck/1/0", "receiver-data/stuck/1/0", "receiver-data/bridged/1-2/low"]
    weights = [weight_of(name).weight for name in names]
    assert weights == sorted(weights, reverse=True) and len(set(weights)) == 3


def test_all_bits_of_all_cells_weigh_what_is_said_of_them_together():
    one = cause_of_cell(fault(SINGLE, "cell/stuck/1-2-3/0"), SINGLE)
    assert one.weight * 24 * 80 * 7 * 2 == pytest.approx(ALL_CELLS)
    three = cause_of_cell(fault(SINGLE, "cell/stuck/1-2-3/0"), SINGLE, ("a", "b"))
    assert three.weight == pytest.approx(3 * one.weight) and three.alike == ("a", "b")
