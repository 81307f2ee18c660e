"""The presses that prove a keyboard, and what is noticed of each of them."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from termprobe.board.keyboard_board import simulate
from termprobe.plan.presses import codes_of, listed_presses
from termprobe.profile.load import load
from termprobe.verdict import noticed as verdict
from termprobe.verdict.noticed import Listening, notice, outcome

PROFILES = {name: load(name) for name in ("singlebyte-24x80", "ecma48-24x80")}
LISTED = {name: listed_presses(profile) for name, profile in PROFILES.items()}
BIT_PAIRED = {press.id: press for press in LISTED["singlebyte-24x80"]}
ECMA = {press.id: press for press in LISTED["ecma48-24x80"]}


def heard(received, press=BIT_PAIRED["press/a"], **details):
    codes = dict(codes_of(LISTED["ecma48-24x80" if press in ECMA.values() else "singlebyte-24x80"]))
    settings = {"speed_baud": 9600, "data_bits": 8, "codes": codes} | details
    return notice(press, received, Listening(**settings))


def kinds(received, press=BIT_PAIRED["press/a"], **details):
    return [noticed.kind for noticed in heard(received, press, **details)]


def as_received(events):
    return [(delay_s, data or b"\0", "" if data else "break") for delay_s, data in events]


# -- the list ----------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize("name", PROFILES)
def test_every_key_that_sends_is_listed_once_in_each_state_and_by_the_order_of_the_profile(name):
    listed, keys = LISTED[name], PROFILES[name].keyboard.keys
    assert len({press.id for press in listed}) == len(listed)
    order = [str(key.name) for key in keys]
    assert [order.index(press.key) for press in listed] == sorted(
        order.index(press.key) for press in listed
    )
    assert {press.key for press in listed} == {
        key.name for key in keys if key.role in ("code", "break")
    }


def test_ids_titles_and_codes():
    assert [BIT_PAIRED[key].code for key in ("press/a", "press/a+shift", "press/a+control")] == [
        b"a",
        b"A",
        b"\x01",
    ]
    assert BIT_PAIRED["press/1+shift"].title == '"1 !" with SHIFT sends "!"'
    assert ECMA["press/up"].code == b"\x1b[A"  # terminfo entry ansi, kcuu1
    both = BIT_PAIRED["press/rubout+control+shift"]
    assert (both.modifiers, both.code) == (
        ("control", "shift"),
        b"\x1f",
    )  # DEL, _ with SHIFT, so US: RFC 20, section 2


def test_a_break_key_is_expected_to_send_a_break_and_a_local_key_is_not_listed():
    assert (BIT_PAIRED["press/break"].code, BIT_PAIRED["press/break"].is_break) == (b"", True)
    assert not any(press.startswith("press/local") for press in BIT_PAIRED)


# -- what is noticed ---------------------------------------------------------------------------------------------------


@pytest.mark.parametrize("name", PROFILES)
def test_a_healthy_keyboard_passes_every_press(name):
    keys, listening = simulate(PROFILES[name]), Listening(9600, 8, dict(codes_of(LISTED[name])))
    for press in LISTED[name]:
        noticed = notice(press, as_received(keys.press(press.key, press.modifiers)), listening)
        assert ([one.kind for one in noticed], outcome(noticed)) == (["right"], "pass"), press


A, A_LATE = (1.0, b"a", ""), (1.1, b"a", "")
NOTICED = {
    "nothing": ([], ["missing"]),
    "its code": ([A], ["right"]),
    "another key's": ([(1.0, b"q", "")], ["wrong-code"]),
    "no key's": ([(1.0, b"\x7f", "")], ["wrong-code"]),
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
    assert kinds(received) == expected
    assert outcome(heard(received)) == ("pass" if expected == ["right"] else "fail")


def test_a_second_code_after_more_than_25_ms_is_no_bounce():
    """Facts of key switches: the longest usual bounce is some milliseconds; a typist needs about 80 ms for a key."""
    assert kinds([A, (1.0251, b"a", "")], speed_baud=19200, data_bits=7) == ["right", "on-release"]


def test_below_1200_baud_a_second_code_is_an_extra_code_and_no_bounce():
    twice = [A, (1.0 + 10 / 300, b"a", "")]  # right behind the first: a character takes 33 ms
    assert kinds(twice, speed_baud=300, data_bits=7) == ["right", "extra"]
    assert kinds([A, (1.009, b"a", "")], speed_baud=1200, data_bits=7) == ["right", "bounce"]


def test_a_repeat_is_no_failure_where_the_key_repeats_and_its_absence_is_one_where_it_was_asked_for():
    held = [A, (1.5, b"a", ""), (1.57, b"a", "")]
    assert outcome(heard(held, may_repeat=True)) == "pass"
    assert outcome(heard(held, may_repeat=False)) == "fail"
    assert outcome(heard(held, may_repeat=True, asked_to_hold=True)) == "pass"
    assert kinds([A], may_repeat=True, asked_to_hold=True) == ["right", "no-repeat"]


def test_a_wrong_code_says_whose_it_is_and_which_bits_differ():
    text = heard([(1.0, b"A", "")])[0].text
    assert text == '"A" came, the code of key "A" with SHIFT, not "a": bit 5 is 0'


def test_keys_of_several_bytes_are_taken_as_one_code():
    up = ECMA["press/up"]
    assert kinds([(1.0, b"\x1b[", ""), (1.002, b"A", "")], up) == ["right"]
    assert kinds([(1.0, b"\x1b[B", "")], up) == ["wrong-code"]
    assert 'the code of key "DOWN"' in heard([(1.0, b"\x1b[B", "")], up)[0].text
    assert kinds([(1.0, b"\x1b[A\x1b[A", "")], up) == ["right", "bounce"]
    assert kinds([(1.0, b"\x1bKA", "")], up) == [
        "wrong-code"
    ]  # bit 4 of the second byte lost: one damaged code
    assert kinds([(1.0, b"\x9b\xdb\xc1", "")], up) == ["eighth-bit"]


@pytest.mark.parametrize(
    "press, code, words", [("a", b"\xe1", "even parity or"), ("c", b"\xe3", "odd parity or")]
)
def test_an_eighth_bit_says_which_parity_would_set_it(press, code, words):
    """Ones are counted: a is 61h, three; c is 63h, four. Even parity makes the number of ones even."""
    assert words in heard([(1.0, code, "")], BIT_PAIRED[f"press/{press}"])[0].text


def test_a_break_where_one_is_expected():
    key = BIT_PAIRED["press/break"]
    assert kinds([(1.0, b"\0", "break")], key) == ["right"]
    assert kinds([(1.0, b"\0", "framing")], key) == ["right"]
    assert kinds([], key) == ["missing"]
    assert kinds([(1.0, b"a", "")], key) == ["wrong-code"]


@pytest.mark.parametrize(
    "pattern, of",
    [
        ("even", lambda ones: ones),
        ("odd", lambda ones: 1 - ones),
        ("mark", lambda ones: 1),
        ("space", lambda ones: 0),
    ],
)
def test_eighth_bits_of_many_codes_tell_the_parity(pattern, of):
    codes = [code | of(bin(code).count("1") % 2) << 7 for code in b"pressed"]
    assert verdict.parity_pattern(codes) == pattern
    assert verdict.parity_pattern(codes[:1]) == ""


def test_a_contact_that_works_only_sometimes_has_a_rate():
    keys = simulate(PROFILES["singlebyte-24x80"], ["key-matrix/key-flaky/a"])
    walked = [heard(as_received(keys.press("a"))) for _ in range(10)]
    assert verdict.rate(walked) == (5, 10)
    assert verdict.rate(walked).text == "5 of 10 presses came: the contact works only sometimes"


@given(
    st.lists(
        st.tuples(
            st.floats(0, 5),
            st.binary(max_size=6),
            st.sampled_from(["", "parity", "framing", "overrun", "break"]),
        )
    ),
    st.sampled_from([*BIT_PAIRED.values(), *ECMA.values()]),
    st.sampled_from([110, 300, 1200, 9600]),
    st.booleans(),
)
def test_whatever_comes_something_safe_is_said(received, press, speed_baud, flag):
    noticed = heard(
        sorted(received), press, speed_baud=speed_baud, may_repeat=flag, asked_to_hold=not flag
    )
    assert noticed and all(
        one.text and one.text.isprintable() and one.text.isascii() for one in noticed
    )
    assert outcome(noticed) in ("pass", "fail")
