"""Lines of the standard input, read by sys.stdin until something else is waited for as well."""

import io
import os
import sys

import pytest

from termprobe.cli.typed_lines import TypedLines


@pytest.fixture(name="typed")
def _typed(monkeypatch):
    """Return what a person types into: a pipe in the place of the standard input."""
    out, into = os.pipe()
    monkeypatch.setattr(sys, "stdin", os.fdopen(out))
    yield into


def test_until_then_it_reads_as_before(monkeypatch):
    monkeypatch.setattr(sys, "stdin", io.StringIO("one\n"))
    lines = TypedLines()
    assert (lines.next_line(), lines.next_line()) == ("one\n", "")


def test_what_is_typed_comes_line_by_line_also_behind_a_wait_in_vain(typed):
    lines = TypedLines()
    assert lines.read(0.0) is None
    os.write(typed, b"one\ntw")
    assert lines.next_line() == "one\n" and lines.read(0.0) is None
    os.write(typed, b"o\nthree")
    os.close(typed)
    assert [lines.next_line() for _ in range(4)] == ["two\n", "three", "", ""]


def test_what_is_no_text_is_replaced_and_the_next_line_is_read(monkeypatch):
    typed = io.TextIOWrapper(io.BytesIO(b"caf\xe9\ny\n"), encoding="utf-8")
    monkeypatch.setattr(sys, "stdin", typed)
    lines = TypedLines()
    assert (lines.next_line(), lines.next_line()) == ("caf\ufffd\n", "y\n")
