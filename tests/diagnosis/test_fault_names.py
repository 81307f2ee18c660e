"""The parts of a fault's name."""

import pytest

from termprobe.board.faults.catalogue import catalogue
from termprobe.diagnosis.fault_names import FaultName, parsed
from termprobe.profile.load import load


@pytest.mark.parametrize(
    "name, parts",
    [
        ("bank-1-data/stuck/3/0", FaultName("bank-1-data", "stuck", "3", "0")),
        ("key-matrix/keys-swapped/q-w", FaultName("key-matrix", "keys-swapped", "q-w")),
        ("parity/inverted", FaultName("parity", "inverted")),
        ("healthy", FaultName("healthy")),
    ],
)
def test_what_a_name_leaves_out_is_empty(name, parts):
    assert parsed(name) == parts and str(parts) == name


def test_each_fault_of_a_board_is_of_a_block_and_of_a_kind():
    for name, fault in catalogue(load("singlebyte-24x80")).items():
        parts = parsed(name)
        assert parts.where == fault.block and parts.kind and str(parts) == name
