"""The notation for bytes, both ways, and what makes text safe to print."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from termprobe.notation import (
    NotationError,
    parse,
    parse_template,
    show,
    show_code,
    show_template,
    visible,
)

# RFC 20 section 2, columns 0 and 1, and section 4.1 for SP and DEL.
RFC_20 = {
    "NUL": 0x00,
    "SOH": 0x01,
    "STX": 0x02,
    "ETX": 0x03,
    "EOT": 0x04,
    "ENQ": 0x05,
    "ACK": 0x06,
    "BEL": 0x07,
    "BS": 0x08,
    "HT": 0x09,
    "LF": 0x0A,
    "VT": 0x0B,
    "FF": 0x0C,
    "CR": 0x0D,
    "SO": 0x0E,
    "SI": 0x0F,
    "DLE": 0x10,
    "DC1": 0x11,
    "DC2": 0x12,
    "DC3": 0x13,
    "DC4": 0x14,
    "NAK": 0x15,
    "SYN": 0x16,
    "ETB": 0x17,
    "CAN": 0x18,
    "EM": 0x19,
    "SUB": 0x1A,
    "ESC": 0x1B,
    "FS": 0x1C,
    "GS": 0x1D,
    "RS": 0x1E,
    "US": 0x1F,
    "SP": 0x20,
    "DEL": 0x7F,
}


@pytest.mark.parametrize("name, code", RFC_20.items())
def test_control_characters_have_the_names_and_codes_of_rfc_20(name, code):
    assert parse(name) == bytes([code])
    assert show(bytes([code])) == show_code(code) == name


@pytest.mark.parametrize(
    "text, data",
    [
        ('ESC "=" 20h', b"\x1b= "),
        ("1Bh", b"\x1b"),
        ("ffh", b"\xff"),
        ('"a b" CR\nLF', b"a b\r\n"),
        ("", b""),
        ('""', b""),
        ("22h", b'"'),
    ],
)
def test_notation_is_read(text, data):
    assert parse(text) == data


@pytest.mark.parametrize(
    "text",
    [
        "ESCAPE",
        "esc",
        "1B",
        "0x1B",
        '"a',
        '"a"b',
        "1Bh2",
        "ESC,LF",
        '"\xe9"',
        '"\x1b"',
        "\x1b",
        "-",
        "123h",
        "row",
    ],
)
def test_what_is_no_notation_is_refused(text):
    with pytest.raises(NotationError):
        parse(text)


def test_templates_keep_their_slots():
    parts = parse_template('ESC "[" row ";" column "H"')
    assert parts == (b"\x1b[", "row", b";", "column", b"H")
    assert show_template(parts) == 'ESC "[" row ";" column "H"'


@given(st.binary())
def test_shown_bytes_are_read_back(data):
    text = show(data)
    assert parse(text) == data
    assert all(0x20 <= ord(character) <= 0x7E for character in text)


@given(st.lists(st.one_of(st.binary(min_size=1), st.sampled_from(["row", "column", "count"]))))
def test_shown_templates_are_read_back(parts):
    joined = parse_template(show_template(parts))
    assert parse_template(show_template(joined)) == joined
    assert [part for part in joined if isinstance(part, str)] == [
        part for part in parts if isinstance(part, str)
    ]


@given(st.text())
def test_any_text_is_either_notation_or_refused(text):
    try:
        assert isinstance(parse(text), bytes)
    except NotationError as error:
        assert str(error)


@pytest.mark.parametrize(
    "text, shown",
    [
        ("plain", "plain"),
        ("\x1b[2J", "\\x1b[2J"),
        ("a\nb", "a\\x0ab"),
        ("\x7f\x9b", "\\x7f\\x9b"),
        ("\u202e", "\\u202e"),
        ("\ufeff", "\\ufeff"),
        ("\u061c\xad\u180e\ufff9", "\\u061c\\xad\\u180e\\ufff9"),
        ("\U000e0041", "\\U000e0041"),
        ("\U0001ffff", "\\U0001ffff"),
        ("caf\u00e9", "caf\u00e9"),
    ],
)
def test_what_could_act_on_a_console_is_made_visible(text, shown):
    assert visible(text) == shown


@given(st.text(alphabet=st.characters(exclude_categories=())))
def test_visible_text_holds_no_control_and_cannot_break_xml(text):
    for character in visible(text):
        assert (
            ord(character) >= 0x20
            and not 0x7F <= ord(character) <= 0x9F
            and not 0xD800 <= ord(character) <= 0xDFFF
        )
        assert ord(character) & 0xFFFE != 0xFFFE and character not in "\u2028\u2029\u202e\u2066"
