"""What is heard narrows formats down, and what to ask next."""

import pytest

from termprobe.line.format_search import (
    FORMAT_KEYS,
    AskedPress,
    FormatSearch,
    Listened,
    predicted,
    without_marks,
)
from termprobe.line.formats import WireFormat, common_formats
from termprobe.link.frame import Sampled

EVEN = WireFormat(9600, 7, "even")
COMMON = common_formats()


def heard_of(wire, key, baud=9600):
    asked = AskedPress(key, baud)
    return Listened(asked, predicted(wire, ord(key), baud))


def after(*listened, has_marks=True):
    search = FormatSearch(COMMON, has_marks)
    for one in listened:
        search = search.after(one)
    return search


def test_u_alone_leaves_seven_even_and_eight_none_and_a_second_parity_tells_them_apart():
    """Even parity of U (four ones) is 0, as is bit 7; that of C (three) is 1."""
    search = after(heard_of(EVEN, "U"))
    likely = {wires[0] for wires, odds in search.classes() if odds > 0.1}
    assert likely == {EVEN, WireFormat(9600, 8, "none"), WireFormat(9600, 8, "odd")}
    assert not search.is_sure() and search.next_press().key in "CT"
    assert after(heard_of(EVEN, "U"), heard_of(EVEN, "C")).classes()[0][0] == (EVEN,)


def test_keys_have_both_parities_of_ones():
    assert {ord(key).bit_count() % 2 for key in FORMAT_KEYS} == {0, 1}


@pytest.mark.parametrize("code", [0x59, 0x75, 0x0D])
def test_one_wrong_key_does_not_decide(code):
    """What came was another key of the same board: Y, a small u, RETURN."""
    slip = Listened(AskedPress("U", 9600), predicted(EVEN, code, 9600))
    right = [heard_of(EVEN, "C"), heard_of(EVEN, "U"), heard_of(EVEN, "C")]
    assert not after(slip, right[0]).is_sure() or after(slip, right[0]).classes()[0][0] == (EVEN,)
    search = after(slip, *right)
    assert search.is_sure() and search.classes()[0][0] == (EVEN,)


def test_nothing_heard_is_little_evidence():
    silent = Listened(AskedPress("U", 9600), ())
    assert after(silent).odds[EVEN] > COMMON[EVEN] / 4


def test_a_port_without_marks_never_hears_errors():
    odd = WireFormat(9600, 8, "odd")
    told = [Listened(one.asked, without_marks(one.heard)) for one in (heard_of(odd, "C"),)]
    assert told[0].heard == (Sampled(0x43, ""),)
    likely = {wires[0].parity for wires, odds in after(*told, has_marks=False).classes()[:3]}
    assert "odd" in likely and not after(*told, has_marks=False).is_sure()


def test_a_rate_that_the_adapter_refuses_is_not_asked_for():
    search = FormatSearch(COMMON)
    baud = search.next_press().baud
    other = search.without(baud)
    assert other.next_press().baud != baud and other.refused_baud == (baud,)


def test_a_crystals_own_rate_is_listened_at_where_it_is_likely():
    crystal = WireFormat(12800.0, 7, "even")
    search = after(heard_of(crystal, "U"))
    assert search.next_press().baud == 12800 and 12800 not in search.rates_baud
