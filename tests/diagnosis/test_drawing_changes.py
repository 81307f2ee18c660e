"""Ways in which all drawings are changed, against the same change made by a fault."""

import pytest

from helpers.scripts import SINGLE
from termprobe.board.board import Board
from termprobe.diagnosis.dot_symptom import light_of
from termprobe.diagnosis.drawing_changes import (
    DrawnBox,
    columns_alike,
    columns_held,
    columns_swapped,
    held,
    rows_dark,
    rows_read,
    swapped_bits,
)
from termprobe.profile.characters import character_set

BOX = SINGLE.display.dots
BOXED = DrawnBox(BOX, character_set(str(BOX.characters)))


@pytest.mark.parametrize(
    "light, fault",
    [
        (columns_held(BOXED, [1], "missing"), "dot-column/missing/1"),
        (columns_held(BOXED, [1], "lit"), "dot-column/stuck/1/1"),
        (columns_swapped(BOXED, 0, 3), "dot-column/swapped/0-3"),
        (rows_read(BOXED, held(1, 1)), "row-scan/stuck/1/1"),
        (rows_read(BOXED, lambda row: swapped_bits(row, 0, 2)), "row-scan/swapped/0-2"),
        (rows_dark(BOXED, lambda line: line % 2 == 1), "dots/half"),
        (list(columns_alike(BOXED, 0, 1))[0], "dot-column/bridged/0-1/high"),
        (list(columns_alike(BOXED, 0, 1))[1], "dot-column/bridged/0-1/low"),
    ],
)
def test_it_is_what_the_fault_does(light, fault):
    assert light == light_of(BOX, Board(SINGLE, [fault]).wiring)
