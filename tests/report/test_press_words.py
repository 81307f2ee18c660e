"""What was noticed of a press is told in one line."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from termprobe.plan.presses import coded_presses, codes_of
from termprobe.profile.load import load
from termprobe.report.press_words import in_words, rate_in_words
from termprobe.verdict.noticed import (
    Bounce,
    Break,
    Code,
    EighthBit,
    Extra,
    LineError,
    Missing,
    Noticed,
    OnRelease,
    Rate,
    Repeat,
    Right,
    Several,
    WrongCode,
)

SHIFTED_A, OF_Q = Code(b"A", ('key "A" with SHIFT',)), Code(b"q", ('key "Q"',))
OF_DOWN = Code(b"\n", ('key "LINE FEED"', 'key "DOWN"'))
OF_EQUALS, OF_GHOST = Code(b"=", ('key "= +"',)), Code(b"`", ('key "` ~"',))

SENTENCES = [
    (Right(b"a"), '"a" came'),
    (Right(b""), "a break came"),
    (
        WrongCode((SHIFTED_A,), b"a"),
        '"A" came, the code of key "A" with SHIFT, not "a": bit 5 is 0',
    ),
    (
        WrongCode((OF_DOWN,), b"\v"),
        'LF came, the code of key "LINE FEED" and of key "DOWN", not VT: bit 0 is 0',
    ),
    (
        WrongCode((Code(b"\x04"),), b"a"),
        'EOT came, not "a": bit 0 is 0, bit 2 is 1, bit 5 is 0, bit 6 is 0',
    ),
    (WrongCode((Code(b"\x1bKA"),), b"\x1b[A"), 'ESC "KA" came, not ESC "[A"'),
    (WrongCode((Code(b"ab"),), b""), '"ab" came, not a break'),
    (
        WrongCode((OF_Q, OF_EQUALS), b"1=\b", is_chord=True),
        '"q", the code of key "Q", "=", the code of key "= +" came, not "1=" BS',
    ),
    (
        WrongCode((OF_Q,), b"1=\b", is_chord=True),
        '"q", the code of key "Q" came, not "1=" BS',
    ),
    (
        EighthBit(b"\x9b\xdb\xc1", b"\x1b[A"),
        '9Bh DBh C1h came, not ESC "[A": the eighth bit is set, as a parity bit fixed at 1 sets it',
    ),
    (Several((OF_Q,), b"a", has_wanted=True), 'besides "a" came "q", the code of key "Q"'),
    (
        Several((OF_Q, SHIFTED_A), b"a", has_wanted=False),
        '2 codes came at once, none of them "a": '
        '"q", the code of key "Q", "A", the code of key "A" with SHIFT',
    ),
    (
        Several((OF_GHOST,), b"1=\b", has_wanted=True, is_chord=True),
        'besides "1=" BS came "`", the code of key "` ~": a key that nobody pressed',
    ),
    (Bounce(b"a", 2, 8.004), '"a" came twice, 8 ms apart: the contact bounces'),
    (Bounce(b"a", 3, 8.6), '"a" came 3 times, 9 ms apart: the contact bounces'),
    (
        Extra(b"a", 2, 300),
        '"a" came twice: an extra code; at 300 baud a bounce cannot be told by its time',
    ),
    (Extra(b"", 2), "2 breaks came, not one"),
    (Repeat(b"a", 3, 500.4, is_allowed=True), '"a" was repeated 3 times, first after 500 ms'),
    (
        Repeat(b"a", 3, 500.4, is_allowed=False),
        '"a" was repeated 3 times, first after 500 ms, and this key should not repeat',
    ),
    (Missing(b"a"), 'no code received, not "a"'),
    (Missing(b""), "no code received, not a break"),
    (
        Missing(b"1=\b", (OF_EQUALS,)),
        '"=", the code of key "= +" did not come, though held together with others',
    ),
    (
        OnRelease((), b"a", 100.2),
        '100 ms later, as on the release of the key, came "a" again',
    ),
    (
        OnRelease((OF_Q,), b"a", 100.2),
        '100 ms later, as on the release of the key, came "q", the code of key "Q"',
    ),
    (Break(b"a"), 'a break came, not "a"'),
    (LineError("parity", b"a"), '"a": its parity bit is wrong'),
    (LineError("overrun", b"a"), '"a": characters before it were lost'),
    (
        LineError("framing", b""),
        "a character: where the stop bit should be the line was not at rest",
    ),
    (LineError("noise", b"a"), '"a": it was received wrongly'),
]


@pytest.mark.parametrize("noticed, sentence", SENTENCES)
def test_what_was_noticed_in_words(noticed, sentence):
    assert in_words(noticed) == sentence


def test_every_kind_has_its_words():
    assert {type(noticed) for noticed, _ in SENTENCES} == set(Noticed.__subclasses__())
    with pytest.raises(TypeError, match="no words for Noticed"):
        in_words(Noticed())


@pytest.mark.parametrize(
    "wanted, came, words",
    [(b"a", b"\xe1", "even parity or a parity"), (b"c", b"\xe3", "odd parity or a parity")],
)
def test_an_eighth_bit_says_which_parity_would_set_it(wanted, came, words):
    """Ones are counted: a is 61h, three; c is 63h, four. Even parity makes the number even."""
    assert f"as {words} bit fixed at 1 sets it" in in_words(EighthBit(came, wanted))


@pytest.mark.parametrize(
    "came, of, words",
    [
        (5, 10, "5 of 10 presses came: the contact works only sometimes"),
        (3, 3, "3 of 3 presses came: the contact works"),
        (0, 2, "0 of 2 presses came: the contact does not work"),
    ],
)
def test_how_often_a_contact_works(came, of, words):
    assert rate_in_words(Rate(came, of)) == words


CODES = dict(codes_of(coded_presses(load("singlebyte-24x80"))))


@given(st.binary(min_size=1, max_size=4), st.binary(max_size=4))
def test_whatever_bytes_came_are_told_without_one_that_acts(came, wanted):
    code = Code(came, CODES.get(came, ()))
    for noticed in (WrongCode((code,), wanted), EighthBit(came, wanted), Missing(wanted, (code,))):
        text = in_words(noticed)
        assert text.isprintable() and text.isascii()
