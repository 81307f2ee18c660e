"""Dictionaries and coverings as bytes: they come back as they were, or not at all."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from helpers.few_faults import play_few
from helpers.scripts import SINGLE, look, plan_of
from termprobe.diagnosis.dictionary import fault_dictionary
from termprobe.diagnosis.dictionary_form import (
    WRONG_FORM,
    covering_bytes,
    covering_in_bytes,
    dictionary_bytes,
    dictionary_of,
)

PLAN = plan_of([look("word", [{"text": "HELLO"}]), look("bell", [{"command": "bell"}])])


def test_a_dictionary_comes_back_as_it_was(monkeypatch):
    play_few(monkeypatch)
    known = fault_dictionary(SINGLE, PLAN)
    assert len(known.faults) > 50
    assert dictionary_of(dictionary_bytes(known)) == known


def test_a_covering_comes_back_as_it_was():
    covering = {"c": ("a", "b"), "d": ("a",)}
    assert covering_in_bytes(covering_bytes(covering)) == covering


@given(st.binary(max_size=40))
def test_what_is_neither_is_refused(data):
    for read in (dictionary_of, covering_in_bytes):
        with pytest.raises(WRONG_FORM):
            read(data)


@pytest.mark.parametrize("data", [b"[]", b'{"a": 1}', b"null", b"7"])
def test_another_document_is_no_covering(data):
    with pytest.raises(WRONG_FORM):
        covering_in_bytes(data)
