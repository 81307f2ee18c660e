"""What became of characters on the way, told by what came: each kind, and any mixture of them."""

import random

from hypothesis import given
from hypothesis import strategies as st

from helpers.examples import examples
from termprobe.line.compare import Comparer
from termprobe.line.stream import BLOCK, PRINTABLE, Stream, carried_codes

STREAM = Stream(carried_codes(8), seed=7)
TEXT = b"".join(STREAM.block(number) for number in range(40))

AHEAD = 11 * BLOCK


def compared(came, sent=TEXT, piece=50):
    """Send and receive in pieces, nothing before it was sent; return the tally."""
    comparer = Comparer()
    comparer.sent(sent[:AHEAD])
    for start in range(0, max(len(sent), len(came)), piece):
        comparer.sent(sent[AHEAD + start : AHEAD + start + piece])
        comparer.came(came[start : start + piece])
    comparer.end()
    return comparer.tally


def test_all_that_comes_as_it_was_sent_is_right():
    tally = compared(TEXT)
    assert tally.wrong == 0 and tally.sent == tally.received == len(TEXT)


def test_a_character_lost_in_each_place_is_one_that_is_lost():
    for place in range(0, 4 * BLOCK):
        assert compared(TEXT[:place] + TEXT[place + 1 :]).errors == {"lost": 1}, place


def test_a_character_that_comes_twice_is_doubled():
    for place in range(0, 4 * BLOCK):
        came = TEXT[: place + 1] + TEXT[place:]
        assert compared(came).errors == {"doubled": 1}, place


def test_bits_that_changed_are_told():
    for place in range(0, 4 * BLOCK):
        came = bytearray(TEXT)
        came[place] ^= 0x24
        tally = compared(came)
        assert tally.errors == {"changed": 1} and tally.bits == {2: 1, 5: 1}, place


def test_a_stretch_that_is_lost_is_counted_however_long():
    for length in (2, 30, BLOCK, 100, 200, 10 * BLOCK):
        tally = compared(TEXT[:100] + TEXT[100 + length :])
        assert tally.errors == {"lost": length}, length


def test_what_nobody_sent_is_extra():
    assert compared(TEXT[:77] + b"\r\nLogin:" + TEXT[77:]).errors == {"extra": 8}


def test_where_nothing_comes_all_is_lost():
    assert compared(b"").errors == {"lost": len(TEXT)}


def test_a_flood_takes_no_room():
    comparer = Comparer()
    comparer.sent(b"#00000000")
    for _ in range(1000):
        comparer.came(bytes(random.Random(1).randbytes(1000)))
    assert len(comparer._came) < 5000
    comparer.end()
    assert comparer.tally.received == 1_000_000


edits = st.lists(
    st.tuples(st.sampled_from(["lost", "changed", "extra"]), st.integers(0, 29)), max_size=12
)


@examples(100)
@given(edits, st.integers(1, 200))
def test_differences_that_lie_apart_are_each_told(edits, piece):
    """Each in a stretch of its own, which is longer than what must agree between two of them."""
    came, wanted = bytearray(), {}
    for number, (kind, place) in enumerate(edits):
        stretch = bytearray(TEXT[number * 60 : number * 60 + 60])
        if kind == "lost":
            del stretch[place]
        elif kind == "changed":
            stretch[place] ^= 0x80
        else:
            stretch[place:place] = b"\x1b[?"
        came += stretch
        wanted[kind] = wanted.get(kind, 0) + (3 if kind == "extra" else 1)
    came += TEXT[len(edits) * 60 :]
    tally = compared(bytes(came), piece=piece)
    assert tally.wrong == sum(wanted.values())
    assert {kind for kind in tally.errors if tally.errors[kind]} <= {*wanted, "doubled"}


@given(st.binary(max_size=3000), st.integers(1, 500))
def test_any_bytes_are_survived_and_counted(came, piece):
    tally = compared(came, piece=piece)
    assert tally.received == len(came) and tally.sent == len(TEXT)
    right = len(TEXT) - tally.errors["lost"] - tally.errors["changed"]
    assert 0 <= right <= min(len(came), len(TEXT))


def test_a_line_of_printable_characters_alone_is_compared_as_well():
    stream = Stream(PRINTABLE, seed=1)
    text = b"".join(stream.block(number) for number in range(12))
    assert set(text) <= set(PRINTABLE)
    for place in range(0, len(text) - 70, 7):
        assert compared(text[:place] + text[place + 1 :], text).errors == {"lost": 1}
