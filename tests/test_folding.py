"""Text folded for plain output."""

import pytest

from termprobe.folding import first_of, folded


def test_a_short_text_is_one_line():
    assert folded("Note  ", "all is well", 80) == ["Note  all is well"]


def test_the_lines_behind_the_first_stand_below_its_text():
    assert folded("Note  ", "one two three four", 13) == [
        "Note  one two",
        "      three",
        "      four",
    ]


@pytest.mark.parametrize("indent", [0, 2, 5])
def test_an_indent_given_counts_instead_of_the_first_word(indent):
    lines = folded("a long first word  ", "one two", 22, indent)
    assert lines == ["a long first word  one", " " * indent + "two"]


def test_no_line_breaks_at_a_hyphen():
    assert folded("", "the next-line command", 12) == ["the", "next-line", "command"]


def test_what_could_act_on_a_console_is_shown_as_an_escape():
    assert folded("\x07 ", "a\x1b[2Jb\nc", 80) == ["\\x07 a\\x1b[2Jb\\x0ac"]


@pytest.mark.parametrize("text", ["", "   "])
def test_no_text_gives_one_line(text):
    assert folded("Note", text, 80) == ["Note"]
    assert folded("", text, 80) == [""]
    assert folded("  ", text, 80) == ["  "]


def test_no_line_is_longer_than_the_page():
    lines = folded("word ", "x" * 50 + " y " + "z-" * 30, 20)
    assert max(len(line) for line in lines) <= 20
    assert "".join("".join(lines).split()) == "word" + "x" * 50 + "y" + "z-" * 30


def test_a_margin_stays_before_a_word_that_must_be_parted():
    assert folded("    ", "x" * 20, 20) == ["    " + "x" * 16, "    " + "x" * 4]


@pytest.mark.parametrize(
    "texts, told",
    [
        ([], ""),
        (["a"], "a"),
        (["a", "b", "c"], "a, b, c"),
        (["a", "b", "c", "d"], "a, b, c and 1 more"),
        (list("abcdefg"), "a, b, c and 4 more"),
    ],
)
def test_of_a_long_list_the_first_are_told_and_how_many_more_there_are(texts, told):
    assert first_of(texts, 3) == told
