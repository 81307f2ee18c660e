"""Texts that fit: never wider than they may be, never acting on the console."""

from hypothesis import given
from hypothesis import strategies as some

from termprobe.session.draw import fit


@given(some.text(max_size=60), some.integers(0, 40))
def test_a_cut_text_is_never_wider_and_never_acts_on_the_console(words, columns):
    found = fit.cut(words, columns)
    assert fit.columns_of(found) <= columns
    assert all(character.isprintable() for character in found)
    assert fit.columns_of(fit.pad(words, columns)) == columns


@given(some.text(alphabet="ab 漢e\u0301\x1b\n", max_size=60), some.integers(2, 30))
def test_wrapped_lines_fit_and_lose_nothing_but_blanks(words, columns):
    found = fit.wrap(words, columns)
    assert all(fit.columns_of(line) <= columns for line in found)
    assert "".join("".join(found).split()) == "".join(fit.harmless(words).split())
