"""From what came of a press to what is noticed of it."""

import dataclasses

import pytest
from hypothesis import given
from hypothesis import strategies as st

from termprobe.board.keyboard_board import simulate
from termprobe.link.base import Received
from termprobe.plan.presses import chord_presses, coded_presses, codes_of, listed_presses
from termprobe.profile.load import load
from termprobe.report.press_words import in_words
from termprobe.verdict.listening import Listening, notice
from termprobe.verdict.noticed import (
    Bounce,
    Break,
    Code,
    EighthBit,
    Extra,
    LineError,
    Missing,
    OnRelease,
    Repeat,
    Right,
    Several,
    WrongCode,
)

SINGLE, ECMA = load("singlebyte-24x80"), load("ecma48-24x80")
OF_SINGLE = {press.id: press for press in listed_presses(SINGLE)}
OF_ECMA = {press.id: press for press in listed_presses(ECMA)}
CODES = dict(codes_of(OF_SINGLE.values()))
ECMA_CODES = dict(codes_of(OF_ECMA.values()))
PRESS_A, UP, BREAK_KEY = OF_SINGLE["press/a"], OF_ECMA["press/up"], OF_SINGLE["press/break"]
REPEATING = dataclasses.replace(PRESS_A, may_repeat=True)


def heard(received, press=PRESS_A, codes=CODES, speed_baud=9600, data_bits=8):
    """Return what is noticed where `received`, (moment, bytes, error) each, came of `press`."""
    events = [Received(*event) for event in received]
    return notice(press, events, Listening(speed_baud, data_bits, codes))


def of_ecma(received, press):
    return heard(received, press, ECMA_CODES)


def kinds(noticed):
    """Return the kinds of what was noticed; of an error of the line its own word."""
    return [one.error if isinstance(one, LineError) else one.kind for one in noticed]


def fails(noticed):
    return any(one.fails for one in noticed)


@pytest.mark.parametrize("profile", [SINGLE, ECMA], ids=lambda profile: profile.id)
def test_a_healthy_keyboard_passes_every_press(profile):
    keys, presses = simulate(profile), listed_presses(profile)
    codes = dict(codes_of(presses))
    for press in presses:
        came = keys.press(press.key, press.modifiers)
        received = [(at_s, data or b"\0", "break" * (not data)) for at_s, data in came]
        noticed = heard(received, press, codes)
        assert noticed == (Right(press.code),) and not fails(noticed), press


# -- single codes ----------------------------------------------------------------------------------

A, A_LATE = (1.0, b"a", ""), (1.1, b"a", "")
NOTICED = {
    "nothing": ([], ["missing"]),
    "its code": ([A], ["right"]),
    "another key's": ([(1.0, b"q", "")], ["wrong-code"]),
    "the rubout key's": ([(1.0, b"\x7f", "")], ["wrong-code"]),
    "its code with the eighth bit": ([(1.0, b"\xe1", "")], ["eighth-bit"]),
    "twice within 25 ms": ([A, (1.025, b"a", "")], ["right", "bounce"]),
    "twice in one piece": ([(1.0, b"aa", "")], ["right", "bounce"]),
    "again on release": ([A, A_LATE], ["right", "on-release"]),
    "another code on release": ([A, (1.1, b"\x01", "")], ["right", "on-release"]),
    "again and again": ([A, (1.5, b"a", ""), (1.57, b"a", "")], ["right", "repeat"]),
    "two keys at once": ([A, (1.003, b"q", "")], ["several"]),
    "two other keys at once": ([(1.0, b"x", ""), (1.003, b"q", "")], ["several"]),
    "a break": ([(1.0, b"\0", "break")], ["break"]),
    "a wrong parity bit": ([(1.0, b"a", "parity")], ["parity", "right"]),
    "no stop bit": ([(1.0, b"A", "framing")], ["framing", "wrong-code"]),
    "an overrun": ([(1.0, b"a", "overrun")], ["overrun", "right"]),
}


@pytest.mark.parametrize("what", NOTICED)
def test_what_came_is_noticed(what):
    received, expected = NOTICED[what]
    noticed = heard(received)
    assert kinds(noticed) == expected
    assert fails(noticed) is (expected != ["right"])


OF_Q, OF_X = Code(b"q", ('key "Q"',)), Code(b"x", ('key "X"',))


@pytest.mark.parametrize(
    "what, expected",
    [
        ("nothing", Missing(b"a")),
        ("another key's", WrongCode((OF_Q,), b"a")),
        ("its code with the eighth bit", EighthBit(b"\xe1", b"a")),
        ("twice within 25 ms", Bounce(b"a", 2, pytest.approx(25))),
        ("again on release", OnRelease((), b"a", pytest.approx(100))),
        (
            "another code on release",
            OnRelease((Code(b"\x01", ('key "A" with CONTROL',)),), b"a", pytest.approx(100)),
        ),
        ("again and again", Repeat(b"a", 2, pytest.approx(500), is_allowed=False)),
        ("two keys at once", Several((OF_Q,), b"a", has_wanted=True)),
        ("two other keys at once", Several((OF_X, OF_Q), b"a", has_wanted=False)),
        ("a break", Break(b"a")),
    ],
)
def test_what_is_noticed_has_its_values(what, expected):
    assert heard(NOTICED[what][0])[-1] == expected


def test_a_line_error_keeps_the_word_of_the_port():
    assert heard([(1.0, b"a", "noise")]) == (LineError("noise", b"a"), Right(b"a"))
    assert heard([(1.0, b"", "parity")]) == (LineError("parity", b""),)


def test_of_a_code_that_no_key_sends_nobody_is_named():
    assert heard([(1.0, b"q", "")], codes={}) == (WrongCode((Code(b"q"),), b"a"),)


def test_a_code_with_its_eighth_bit_set_is_named_by_its_other_bits():
    assert heard([(1.0, b"\xf1", "")]) == (WrongCode((Code(b"\xf1", OF_Q.names),), b"a"),)


def test_a_second_code_after_more_than_25_ms_is_no_bounce():
    """Facts of key switches: the longest usual bounce is some milliseconds; a typist needs about
    80 ms for a key.
    """
    late = [A, (1.0251, b"a", "")]
    assert kinds(heard(late, speed_baud=19200, data_bits=7)) == ["right", "on-release"]


def test_below_1200_baud_a_second_code_is_an_extra_code_and_no_bounce():
    twice = [A, (1.0 + 10 / 300, b"a", "")]  # right behind the first: a character takes 33 ms
    assert heard(twice, speed_baud=300, data_bits=7) == (Right(b"a"), Extra(b"a", 2, 300))
    near = heard([A, (1.009, b"a", "")], speed_baud=1200, data_bits=7)
    assert kinds(near) == ["right", "bounce"]


def test_a_bounce_of_many_codes_is_told_by_its_mean_time():
    thrice = [A, (1.008, b"a", ""), (1.02, b"a", "")]
    assert heard(thrice)[1] == Bounce(b"a", 3, pytest.approx(10))


def test_a_repeat_is_no_failure_where_the_key_repeats():
    held = [A, (1.5, b"a", ""), (1.57, b"a", "")]
    assert not fails(heard(held, REPEATING))
    assert fails(heard(held, PRESS_A))


def test_keys_of_several_bytes_are_taken_as_one_code():
    assert of_ecma([(1.0, b"\x1b[", ""), (1.002, b"A", "")], UP) == (Right(b"\x1b[A"),)
    down = Code(b"\x1b[B", ('key "DOWN"',))
    assert of_ecma([(1.0, b"\x1b[B", "")], UP) == (WrongCode((down,), b"\x1b[A"),)
    assert kinds(of_ecma([(1.0, b"\x1b[A\x1b[A", "")], UP)) == ["right", "bounce"]
    # Bit 4 of the second byte is lost: one damaged code.
    damaged = WrongCode((Code(b"\x1bKA"),), b"\x1b[A")
    assert of_ecma([(1.0, b"\x1bKA", "")], UP) == (damaged,)
    two = dataclasses.replace(PRESS_A, code=b"\x1bA")
    lost = WrongCode((Code(b"\x1bC"),), b"\x1bA")
    assert heard([(1.0, b"\x1bC", "")], two, {b"\x1bA": ("A",)}) == (lost,)
    assert kinds(of_ecma([(1.0, b"\x9b\xdb\xc1", "")], UP)) == ["eighth-bit"]


def test_a_key_that_sends_without_end_is_noticed_as_one_that_sends_a_little():
    """What is made of each code must not look at all that follows: the line may be a fast one."""
    code = UP.code
    for count in (3, 15_000):
        received = [(0.001 * number, code, "") for number in range(count)]
        (right, bounce) = of_ecma(received, UP)
        assert right == Right(code) and bounce == Bounce(code, count, pytest.approx(1.0))


def test_a_break_where_one_is_expected():
    assert heard([(1.0, b"\0", "break")], BREAK_KEY) == (Right(b""),)
    assert heard([(1.0, b"\0", "framing")], BREAK_KEY) == (Right(b""),)
    assert heard([], BREAK_KEY) == (Missing(b""),)
    assert heard([(1.0, b"a", "")], BREAK_KEY) == (WrongCode((Code(b"a"),), b""),)
    twice = [(1.0, b"\0", "break"), (1.1, b"\0", "break")]
    assert heard(twice, BREAK_KEY) == (Extra(b"", 2),)


def test_a_framing_error_is_a_break_only_where_one_is_expected():
    assert kinds(heard([(1.0, b"\0", "framing")])) == ["framing", "wrong-code"]
    assert kinds(heard([(1.0, b"a", "framing")], BREAK_KEY)) == ["framing", "wrong-code"]


# -- chords ----------------------------------------------------------------------------------------

LINE_CODES = dict(codes_of(coded_presses(ECMA)))
# With 1 and = held; the ghost would be `.
BACK_SPACE = next(chord for chord in chord_presses(ECMA) if chord.id == "chord/back-space")
WANTED = b"1=\b"
OF_1, OF_EQUALS = Code(b"1", ('key "1 !"',)), Code(b"=", ('key "= +"',))
OF_GHOST = Code(b"`", ('key "` ~"',))


def chord(*codes, error=""):
    received = [(number * 0.6, code, error) for number, code in enumerate(codes)]
    return heard(received, BACK_SPACE, LINE_CODES)


def test_keys_held_until_they_repeat_make_no_ghost_and_their_order_does_not_count():
    """Three keys take a person longer than the half second after which a held key repeats (common
    practice).
    """
    assert chord(b"1", b"1", b"=", b"=", b"=", b"\b", b"\b") == (Right(WANTED),)
    assert chord(b"\b", b"1", b"=") == (Right(WANTED),)


def test_what_is_missing_and_what_is_too_much_is_named():
    assert chord(b"1", b"\b") == (Missing(WANTED, (OF_EQUALS,)),)
    ghost = Several((OF_GHOST,), WANTED, has_wanted=True, is_chord=True)
    assert chord(b"1", b"=", b"`", b"\b", b"`") == (ghost,)
    assert chord(b"1", b"q") == (WrongCode((OF_1, OF_Q), WANTED, is_chord=True),)
    assert chord() == (Missing(WANTED),)


def test_errors_of_the_line_are_noticed_in_chords_too():
    noticed = chord(b"1", b"=", b"\b", error="parity")
    assert set(kinds(noticed)) == {"parity", "right"} and fails(noticed)


# -- whatever comes --------------------------------------------------------------------------------

PRESSES = [(press, CODES) for press in OF_SINGLE.values()]
PRESSES += [(press, ECMA_CODES) for press in OF_ECMA.values()]


@given(
    st.lists(
        st.tuples(
            st.floats(0, 5),
            st.binary(max_size=6),
            st.sampled_from(["", "parity", "framing", "overrun", "break"]),
        )
    ),
    st.sampled_from(PRESSES),
    st.sampled_from([110, 300, 1200, 9600]),
    st.booleans(),
)
def test_whatever_comes_something_safe_is_said(received, one_press, speed_baud, flag):
    press, codes = one_press
    press = dataclasses.replace(press, may_repeat=flag)
    noticed = heard(sorted(received), press, codes, speed_baud)
    texts = [in_words(one) for one in noticed]
    assert texts and all(text and text.isprintable() and text.isascii() for text in texts)
