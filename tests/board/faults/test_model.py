"""A fault is a name with its block, a title and an edit of the wiring."""

from termprobe.board.faults.model import block_of, make
from termprobe.board.wiring import Wiring


def test_the_block_of_a_fault_is_the_first_word_of_its_name():
    found = make("margin/no-wrap", "the cursor stays", lambda wiring: wiring.missing.add("x"))
    wiring = Wiring()
    found.apply(wiring)
    assert (found.block, wiring.missing) == ("margin", {"x"})
    assert block_of("nonsense") == "nonsense"
