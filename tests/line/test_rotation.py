"""Losses in text of which each character follows the last."""

import pytest

from termprobe.line.rotation import TEXT, lost_in, told_of


@pytest.mark.parametrize("gone", [0, 1, 2, 50])
def test_what_is_missing_is_counted(gone):
    text = TEXT * 2
    assert lost_in(text[:60] + text[60 + gone :]) == gone
    assert told_of(text[:60] + text[60 + gone :]) == f"{gone} lost"


def test_ends_of_rows_and_the_codes_of_a_handshake_are_no_part_of_it():
    assert lost_in(b"ABC\r\nDE\x13\x11F  \0G") == 0


def test_other_text_tells_no_loss():
    assert lost_in(b"AAAA") is lost_in(b"") is lost_in(b"A") is None
    assert told_of(b"AAAA").startswith("one key that repeats")
    assert told_of(b"AZAZ") == "2 different characters came"
