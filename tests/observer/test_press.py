"""One press of a key, heard on the line: parted from the next one by its moment."""

from itertools import accumulate

import pytest
from hypothesis import given
from hypothesis import strategies as st

from helpers.bench_plan import press, step
from helpers.incoming import Line
from termprobe.journal.records import AS_EXPECTED, DIFFERS, KEYBOARD, Answer, Heard
from termprobe.link.base import LineFormat, Received
from termprobe.observer.press import (
    CHORD_QUIET_S,
    LONGEST_S,
    NAME,
    PERSON_LIMIT_S,
    PRESS_LIMIT_S,
    PRESS_QUIET_S,
    Ear,
    PressObserver,
    answer_of,
)

Q = press("press/q")
CHORD = press("chord/q", key="q", held=("a", "s"))
STEP = step("press/q", "keyboard", "press")
LINE = LineFormat(9600, 7, "even", 1)


def bytes_of(events):
    return b"".join(event.data for event in events)


@given(st.lists(st.sampled_from([0.008, 0.149, 0.151, 0.3]), max_size=12), st.floats(0, 3))
def test_presses_are_parted_by_the_moments_at_which_bytes_came_not_by_when_they_are_fetched(
    gaps, late_s
):
    moments = list(accumulate([1.0, *gaps]))
    line = Line(*((at_s, bytes([0x41 + number])) for number, at_s in enumerate(moments)))
    line.clock.sleep_until(late_s)
    ear, presses = Ear(line), []
    ear.wait_for(Q, None)
    while line.clock.now_s() < moments[-1] + 5:
        presses.append(bytes_of(ear.turn() or ()))
    whole = "A"
    for number, gap in enumerate(gaps, 1):
        whole += " " * (gap >= PRESS_QUIET_S) + chr(0x41 + number)
    assert [press for press in presses if press] == whole.encode().split()


def test_a_key_that_never_stops_is_one_press_after_a_while():
    line = Line(*((0.05 * number, b"q") for number in range(200)))
    ear = Ear(line)
    ear.wait_for(Q, None)
    assert 60 <= len(ear.turn()) <= 100
    assert LONGEST_S <= line.clock.now_s() <= LONGEST_S + 1


def test_keys_that_are_held_together_may_come_with_pauses():
    moments = [0.1, 0.1 + CHORD_QUIET_S - 0.1, 0.1 + 2 * CHORD_QUIET_S - 0.2]
    heard = {}
    for wanted in (Q, CHORD):
        ear = Ear(Line(*((at_s, b"x") for at_s in moments)))
        ear.wait_for(wanted, 5.0)
        while (events := ear.turn()) is None:
            pass
        heard[wanted.id] = bytes_of(events)
    assert heard == {"press/q": b"x", "chord/q": b"xxx"}


def test_moments_count_from_the_request_and_errors_are_kept():
    ear = Ear(Line((1.25, b"q", "parity")))
    ear.wait_for(Q, None)
    while (events := ear.turn()) is None:
        pass
    assert events == (Received(1.25, b"q", "parity"),)
    ear.keep([Received(2.0, b"w")])
    ear._incoming.clock.sleep_until(1.5)
    ear.wait_for(Q, None)
    assert ear.turn() == (Received(0.5, b"w"),)


def test_where_nothing_comes_in_time_the_press_is_over_with_nothing():
    line = Line()
    ear = Ear(line)
    assert not ear.is_waiting
    ear.wait_for(Q, 3.0)
    assert ear.is_waiting
    while (events := ear.turn()) is None:
        assert line.clock.now_s() < 3.0
    assert events == () and line.clock.now_s() >= 3.0
    ear.rest()
    assert not ear.is_waiting


@given(st.lists(st.floats(0, 20), max_size=20))
def test_no_byte_is_lost_or_heard_twice(moments):
    line = Line(*((at_s, bytes([number])) for number, at_s in enumerate(sorted(moments))))
    ear, heard = Ear(line), b""
    while line.clock.now_s() < 30:
        ear.wait_for(Q, 0.5)
        heard += bytes_of(ear.turn() or ())
    assert heard == bytes(range(len(moments)))


def test_an_answer_holds_what_was_heard_and_on_which_line():
    events = (Received(0.5, b"q"), Received(0.508, b"q"))
    heard = Heard(9600, 7, events)
    expected = Answer(DIFFERS, data=b"qq", heard=heard, observer=NAME, strength=KEYBOARD)
    assert answer_of(Q, events, LINE) == expected
    assert answer_of(Q, events[:1], LINE).word == AS_EXPECTED
    assert answer_of(Q, (), LINE).word == DIFFERS and answer_of(Q, (), LINE).data == b""


@pytest.mark.parametrize(
    "is_person, expected, waited_s",
    [(False, (DIFFERS, b""), PRESS_LIMIT_S), (True, None, PERSON_LIMIT_S)],
)
def test_a_press_that_does_not_come_is_missing_but_for_a_person(is_person, expected, waited_s):
    line = Line()
    answer = PressObserver(line, lambda step: None, is_person).answer(STEP)
    assert (answer and (answer.word, answer.data)) == expected
    assert waited_s <= line.clock.now_s() < waited_s + 1


def test_the_key_is_pressed_once_it_is_waited_for():
    line, pressed = Line((0.5, b"q")), []
    answer = PressObserver(line, pressed.append).answer(STEP)
    assert pressed == [STEP] and answer.word == AS_EXPECTED
    assert answer.heard == Heard(9600, 8, (Received(0.5, b"q"),))


def test_where_nobody_can_press_a_press_is_not_claimed():
    assert not PressObserver(Line()).can_answer(STEP)
    assert not PressObserver(Line(), lambda step: None).can_answer(step("q", "s", "ask"))
