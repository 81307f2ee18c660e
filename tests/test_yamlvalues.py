"""Values that know where they stood."""

from typing import Literal

import pytest

from termprobe.findings import Place
from termprobe.notation import NotationError, parse_template
from termprobe.yamlnodes import Scalar
from termprobe.yamlvalues import ByteText, Template, Text, key_of, name_of, read, words_of

ADDRESS = Template(parse_template('ESC "=" row ";" column'))


def scalar(text):
    return Scalar(text, True, Place(3, 5))


@pytest.mark.parametrize(
    ("text", "kind", "value"),
    [
        ("a b", Text, "a b"),
        ("a\nb", str, "a\nb"),
        ("1Bh", int, 27),
        ("-12", int, -12),
        ("0.50", float, 0.5),
        ("no", bool, False),
        ("two", Literal["one", "two"], "two"),
        ('ESC "A"', ByteText, b"\x1bA"),
        ("ESC row", Template, (b"\x1b", "row")),
    ],
)
def test_a_scalar_is_read_as_the_kind_asked_for(text, kind, value):
    assert read(scalar(text), kind) == value


@pytest.mark.parametrize("kind", [Text, ByteText, Template])
def test_texts_and_bytes_know_where_they_stood(kind):
    value = read(scalar("ESC"), kind)
    assert isinstance(value, kind) and (value.line, value.column) == (3, 5)


def test_a_key_knows_where_it_stood():
    key = key_of(scalar("\x07"))
    assert key == "\x07" and (key.line, key.column) == (3, 5)


def test_what_came_from_no_file_stands_nowhere():
    assert (Text("a").line, ByteText(b"a").column, Template().line) == (0, 0, 0)


@pytest.mark.parametrize(
    ("text", "kind"),
    [
        ("\x1b", Text),
        ("1_000", int),
        ("0x1B", int),
        ("1234567890", int),
        ("nan", float),
        (".5", float),
        ("on", bool),
        ("three", Literal["one", "two"]),
    ],
)
def test_what_is_not_of_its_kind_is_refused(text, kind):
    with pytest.raises(ValueError):
        read(scalar(text), kind)


def test_bytes_keep_the_reason_of_the_notation():
    with pytest.raises(NotationError, match="must not hold a slot here"):
        read(scalar("row"), ByteText)


def test_kinds_have_names():
    assert name_of(Text) == name_of(str) == "printable text"
    assert name_of(Literal["one", "two"]) == "one of one, two"
    assert name_of(ByteText) == name_of(Template) == "bytes in the notation"
    assert words_of(Literal["one", "two"]) == ("one", "two") and words_of(str) == ()


def test_a_template_tells_its_slots_from_its_bytes():
    assert ADDRESS.slots == ("row", "column")
    assert ADDRESS.literal == b"\x1b=;"
    assert ADDRESS.with_slots_as(b"#") == b"\x1b=#;#"
    assert ADDRESS.begins_with(b"\x1b=") and not ADDRESS.begins_with(b"\x1b=;")
    assert not Template().begins_with(b"\x1b") and not Template(("row",)).begins_with(b"r")
