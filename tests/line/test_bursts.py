"""Bytes gathered into bursts: nothing is lost, nothing changes its way, gaps and lengths hold."""

from hypothesis import given
from hypothesis import strategies as st

from termprobe.line.bursts import CAME, LONGEST, SENT, Gatherer

GAP_S = 0.1
pieces = st.lists(
    st.tuples(
        st.floats(0, 0.5),
        st.sampled_from([SENT, CAME]),
        st.binary(min_size=1, max_size=90),
        st.sampled_from(["", "", "framing"]),
    )
)


def gathered(pieces):
    gatherer, found, now_s = Gatherer(GAP_S), [], 0.0
    for wait_s, way, data, error in pieces:
        now_s += wait_s
        found += gatherer.take(now_s, way, data, error)
    return found + gatherer.end()


@given(pieces)
def test_all_bytes_are_told_in_order_each_way_with_their_errors(pieces):
    found = gathered(pieces)
    for way in (SENT, CAME):
        for error in ("", "framing"):
            wanted = b"".join(
                data
                for _, *rest in pieces
                if rest[0] == way and rest[2] == error
                for data in [rest[1]]
            )
            told = [one.data for one in found if (one.way, one.error) == (way, error)]
            assert b"".join(told) == wanted
    assert all(0 < len(burst.data) <= LONGEST for burst in found)
    assert [burst.at_s for burst in found] == sorted(burst.at_s for burst in found)


def test_what_follows_without_a_gap_is_one_burst_and_tells_how_long_it_lasts():
    (burst,) = gathered([(0.0, SENT, b"A", ""), (0.05, SENT, b"B", ""), (0.05, SENT, b"C", "")])
    assert burst.data == b"ABC" and burst.at_s == 0.0 and round(burst.lasts_s, 3) == 0.1


def test_a_gap_the_other_way_or_an_error_begins_another():
    given_ = [(0, SENT, b"A", ""), (0.2, SENT, b"B", ""), (0, CAME, b"C", ""), (0, CAME, b"D", "x")]
    assert [burst.data for burst in gathered(given_)] == [b"A", b"B", b"C", b"D"]


def test_one_under_way_is_complete_once_it_has_been_quiet():
    gatherer = Gatherer(GAP_S)
    assert gatherer.take(1.0, SENT, b"A") == [] and gatherer.quiet(1.05) == []
    (burst,) = gatherer.quiet(1.1)
    assert burst.data == b"A" and gatherer.end() == [] and gatherer.under_way is None
