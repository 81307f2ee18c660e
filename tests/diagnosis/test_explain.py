"""What would explain a symptom: stories whose cause is known, with and without a slip."""

import pytest

from helpers.scripts import ECMA, SINGLE
from termprobe.diagnosis.area import readings_of
from termprobe.diagnosis.explain import explain
from termprobe.diagnosis.symptom import Symptom, TextSymptom
from termprobe.errors import UsageError

ODD = readings_of("odd rows", 24, 80)


def texts(*pairs):
    return tuple(TextSymptom(sent.encode(), seen.encode()) for sent, seen in pairs)


def stuck_high(text, bit):
    return "".join(chr(ord(character) | 1 << bit) for character in text)


def test_a_space_that_shows_as_another_sign_is_a_stuck_bit():
    found = explain(SINGLE, Symptom(texts((" ABCDEH", stuck_high(" ABCDEH", 0)))))
    assert found.is_explained and found.verdict == "fail"
    assert {"bank-0-data/stuck/0/1", "bank-1-data/stuck/0/1"} == set(found.suspects[0].faults)


def test_one_character_in_what_was_written_down_may_be_wrong():
    seen = stuck_high(" ABCDEH", 0)
    found = explain(SINGLE, Symptom(texts((" ABCDEH", seen.replace("I", "J")))))
    assert found.is_explained and "bank-0-data/stuck/0/1" in found.suspects[0].faults
    assert found.suspects[0].contradicts == ("text 1",)
    twice = explain(SINGLE, Symptom(texts((" ABCDEH", "?" + seen[1:].replace("I", "J")))))
    assert not twice.is_explained


def test_odd_rows_are_one_bank_and_everywhere_is_none():
    pair = texts(("ABCDEFGH", stuck_high("ABCDEFGH", 1)))
    odd = explain(SINGLE, Symptom(pair, ODD))
    assert odd.is_explained and "bank-1-data/stuck/1/1" in odd.suspects[0].faults
    assert odd.blocks[0].block == "bank-1-data" and odd.blocks[0].probability > 0.9
    whole = explain(SINGLE, Symptom(pair, readings_of("everywhere", 24, 80)))
    assert whole.is_explained and "bank-1-data/stuck/1/1" not in whole.suspects[0].faults
    assert "glyph-address/stuck/1/1" in whole.suspects[0].faults


def test_several_texts_are_one_board():
    first, second = ("AC", "CC"), ("`ab", "bcb")
    alone = explain(SINGLE, Symptom(texts(first), ODD))
    both = explain(SINGLE, Symptom(texts(first, second), ODD))
    assert len(both.suspects[0].faults) < len(alone.suspects[0].faults)
    assert "bank-1-data/stuck/1/1" in both.suspects[0].faults


def test_a_command_that_is_not_obeyed():
    symptom = Symptom((TextSymptom(b"ABC\b-", b"ABC-"),))
    found = explain(SINGLE, symptom)
    assert found.is_explained and "decoder/dead/left" in found.suspects[0].faults


def test_a_single_cell():
    where = readings_of("row 5, column 7", 24, 80)
    found = explain(SINGLE, Symptom(texts(("U", "T")), where))
    assert found.is_explained and found.suspects[0].faults == ("cell/stuck/5-7-0/0",)


def test_keys_alone_by_the_published_example():
    """1 gave 9 and Q gave Y: bit 3. The owner's third example, comma for <, is a slip."""
    keys = ((b"1", b"9"), (b"Q", b"Y"), (b"A", b"I"), (b"U", b"]"), (b"H", b"H"))
    found = explain(SINGLE, Symptom(keys=keys))
    assert found.is_explained and "keyboard-code/stuck/3/1" in found.suspects[0].faults


def test_texts_and_keys_are_told_apart():
    symptom = Symptom(texts(("HELLO", "HELLO")), keys=((b"A", b"C"), (b"B", b"B")))
    found = explain(SINGLE, symptom)
    assert found.is_explained and found.blocks[0].block in ("keyboard-code", "transmitter-data")


def test_what_is_as_it_must_be_needs_no_explanation():
    found = explain(SINGLE, Symptom(texts(("HELLO", "HELLO"))))
    assert (found.verdict, found.is_explained, found.suspects) == ("pass", True, ())


def test_nonsense_is_not_explained():
    assert not explain(SINGLE, Symptom(texts(("HELLO WORLD", "XYZZY 12345")))).is_explained


def test_what_cannot_be_simulated_is_refused():
    with pytest.raises(UsageError, match="needs a profile with a section circuit"):
        explain(ECMA, Symptom(texts(("A", "B"))))
    with pytest.raises(UsageError, match="--keys must name a character that a key"):
        explain(SINGLE, Symptom(keys=((b"\xff", b"A"),)))
