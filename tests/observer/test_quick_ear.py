"""A person's presses are heard at once, and told again where more of one follows."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from helpers.bench_plan import press
from helpers.incoming import Line
from termprobe.link.base import LineFormat, Received
from termprobe.observer.press import LONGEST_S, PRESS_QUIET_S, bytes_of
from termprobe.observer.quick_ear import BEGUN_QUIET_S, CODE_QUIET_S, NEXT_KEY_S, QuickEar

Q, W = press("press/q"), press("press/w")
UP = press("press/up", code=b"\x1b[A")
LATEST_S = 30.0


def heard(line, *presses, codes=(), limit_s=None, is_quick=True):
    """Return (moment, bytes, whether more of the one before) of all that is heard of presses."""
    ear, found, wanted = QuickEar(line, codes), [], list(presses or [Q])
    ear.wait_for(wanted.pop(0), limit_s, is_quick)
    while line.clock.now_s() < LATEST_S:
        one = ear.listen()
        if one is None:
            continue
        found.append((round(line.clock.now_s(), 3), bytes_of(one.events), one.is_more))
        if not one.is_more and wanted:
            ear.wait_for(wanted.pop(0), limit_s, is_quick)
    return found


def test_a_press_is_told_when_its_code_has_come():
    ((at_s, data, is_more),) = heard(Line((1.0, b"q")))
    assert (data, is_more) == (b"q", False)
    assert at_s <= 1.0 + CODE_QUIET_S + 0.001 < 1.0 + PRESS_QUIET_S


def test_a_bounce_after_it_was_told_is_told_as_more_of_it():
    first, more = heard(Line((1.0, b"q"), (1.008, b"q")))
    assert first[1:] == (b"q", False) and more[1:] == (b"qq", True)
    assert first[0] < 1.008 and more[0] <= 1.008 + NEXT_KEY_S + 0.03


def test_two_codes_at_once_are_one_press():
    ((_, data, is_more),) = heard(Line((1.0, b"q"), (1.001, b"w")))
    assert (data, is_more) == (b"qw", False)


def test_a_quick_typist_is_heard_key_by_key():
    keys = "typist"
    line = Line(*((1.0 + 0.12 * number, key.encode()) for number, key in enumerate(keys)))
    found = heard(line, *(press(f"press/{key}") for key in keys))
    assert [data for _, data, _ in found] == [key.encode() for key in keys]
    assert not any(is_more for _, _, is_more in found)
    assert all(at_s <= 1.0 + 0.12 * number + 0.006 for number, (at_s, *_) in enumerate(found))


def test_the_same_code_again_is_of_the_press_before_unless_it_is_wanted_now():
    pieces = (1.0, b"q"), (1.1, b"q")
    assert [one[1:] for one in heard(Line(*pieces), Q, W)] == [(b"q", False), (b"qq", True)]
    assert [one[1:] for one in heard(Line(*pieces), Q, Q)] == [(b"q", False), (b"q", False)]
    late = (1.0, b"q"), (1.01 + PRESS_QUIET_S, b"q")
    assert [one[1:] for one in heard(Line(*late), Q, W)] == [(b"q", False), (b"q", False)]


def test_a_key_that_is_rolled_over_is_of_the_next_press():
    line = Line((1.0, b"q"), (1.03, b"x"))
    assert [one[1:] for one in heard(line, Q, W, codes=[b"q", b"w", b"x"])] == [
        (b"q", False),
        (b"x", False),
    ]
    soon = Line((1.0, b"q"), (1.02, b"x"))
    found = heard(soon, Q, W, codes=[b"q", b"w", b"x"])
    assert [one[1:] for one in found] == [(b"q", False), (b"qx", True)]


def test_what_is_asked_for_now_counts_however_soon_it_comes():
    assert [one[1:] for one in heard(Line((1.0, b"q"), (1.01, b"w")), Q, W)] == [
        (b"q", False),
        (b"w", False),
    ]
    again = heard(Line((1.0, b"q"), (1.03, b"q")), Q, Q)
    assert [one[1:] for one in again] == [(b"q", False), (b"q", False)]


def test_another_code_that_a_hand_can_have_sent_is_of_the_next_press():
    found = heard(Line((1.0, b"q"), (1.001 + NEXT_KEY_S, b"x")), Q, W)
    assert [one[1:] for one in found] == [(b"q", False), (b"x", False)]


@pytest.mark.parametrize("gap_s", [0.001, 0.016, BEGUN_QUIET_S - 0.002])
def test_a_code_of_several_bytes_is_waited_for_as_long_as_it_may_be_one(gap_s):
    pieces = [(1.0 + gap_s * number, bytes([code])) for number, code in enumerate(UP.code)]
    ((_, data, is_more),) = heard(Line(*pieces), UP, codes=[UP.code])
    assert (data, is_more) == (UP.code, False)


def test_on_a_slow_line_two_codes_of_one_press_are_still_one():
    line = Line((1.0, b"q"), (1.1, b"w"))
    line.link_format = LineFormat(110, 7, "even", 2)
    assert [one[1:] for one in heard(line, Q, W)] == [(b"q", False), (b"qw", True)]


def test_a_key_that_never_stops_is_told_now_and_then():
    line = Line(*((0.05 * number, b"q") for number in range(200)))
    found = heard(line, *[Q] + [W] * 20)
    assert len(found) <= 3 * 10 / LONGEST_S + 2
    assert [is_more for *_, is_more in found][:2] == [False, True]


def test_a_machine_and_a_chord_are_told_once():
    pieces = (1.0, b"q"), (1.008, b"q")
    assert [one[1:] for one in heard(Line(*pieces), Q, is_quick=False)] == [(b"qq", False)]
    chord = press("chord/q", key="q", held=("a", "s"))
    assert [one[1:] for one in heard(Line((1.0, b"a"), (1.5, b"q")), chord)] == [(b"aq", False)]


def test_where_nothing_comes_in_time_the_press_is_over_with_nothing():
    ear = QuickEar(Line())
    ear.wait_for(Q, 3.0)
    while (one := ear.listen()) is None:
        assert ear._incoming.clock.now_s() < 3.0
    assert one.events == () and not one.is_more


def test_moments_count_from_the_request_of_the_press_they_are_of():
    line = Line((1.0, b"q", "parity"), (1.02, b"q"))
    ear = QuickEar(line)
    line.clock.sleep_until(0.5)
    ear.wait_for(Q, None)
    while (one := ear.listen()) is None:
        pass
    assert one.events == (Received(0.5, b"q", "parity"),)
    ear.wait_for(W, None)
    while (more := ear.listen()) is None:
        assert not ear.is_settled
    assert more.events == (Received(0.5, b"q", "parity"), Received(0.52, b"q"))
    assert ear.is_settled


def test_after_a_rest_nothing_is_of_the_press_before():
    ear = QuickEar(Line((1.0, b"q"), (1.02, b"q")))
    ear.wait_for(Q, None)
    while ear.listen() is None:
        pass
    ear.rest()
    assert ear.is_settled and not ear.is_waiting


@given(st.lists(st.floats(0, 8), max_size=20))
def test_no_byte_is_lost_or_heard_twice(moments):
    line = Line(*((at_s, bytes([number])) for number, at_s in enumerate(sorted(moments))))
    presses = []
    for _, data, is_more in heard(line, *[Q] * 30):
        if is_more:
            presses.pop()
        presses.append(data)
    assert b"".join(presses) == bytes(range(len(moments)))
