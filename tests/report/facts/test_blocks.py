"""Blocks by how much of them was shown."""

from termprobe.report.block_shown import BlockShown
from termprobe.report.facts.blocks import blocks_in_words


def test_blocks_are_told_by_how_much_was_shown():
    blocks = [BlockShown("a", 2, 2), BlockShown("b", 1, 3), BlockShown("c", 0, 3)]
    told = ["all of: a", "some of: b (1 of 3)", "none of: c"]
    assert list(blocks_in_words(blocks)) == told
    assert list(blocks_in_words(blocks[:1])) == told[:1]
