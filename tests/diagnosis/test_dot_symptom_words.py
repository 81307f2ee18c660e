"""The words for what is wrong with all dots, against the faults of the boards they are of."""

import functools

import pytest

from helpers.scripts import SINGLE
from termprobe.board.faults.dots import faults
from termprobe.board.wiring import wire
from termprobe.diagnosis.dot_symptom import light_of
from termprobe.diagnosis.dot_symptom_words import dots_noticed


@functools.cache
def lights():
    """Return what is wrong with each fault of the dots."""
    found = {}
    for fault in faults(SINGLE):
        wiring = wire(SINGLE)
        fault.apply(wiring)
        found[fault.name] = light_of(SINGLE.display.dots, wiring)
    return found


def best(words):
    """Return the faults that account best for `words`."""
    noticed = dots_noticed(words, SINGLE)
    fits = {name: round(noticed.fit(light).log_likelihood, 3) for name, light in lights().items()}
    most = max(fits.values())
    return {name for name, fit in fits.items() if fit == most}


@pytest.mark.parametrize(
    "words, names",
    [
        ("left dot column missing", "dot-column/missing/0"),
        ("dot column 2 is always lit", "dot-column/stuck/2/1"),
        ("the second column of dots is never lit", "dot-column/missing/1"),
        ("from dot column 3 on missing", "shift-register/stuck/3/0"),
        ("dot columns 1 and 2 swapped", "dot-column/swapped/1-2"),
        ("the second and third dot rows are exchanged", "row-scan/swapped/0-1"),
        ("every second dot row doubled", "row-scan/stuck/0/0 row-scan/stuck/0/1"),
        ("every other scan line is dark", "dots/half"),
        ("upper half drawn twice", "row-scan/stuck/1/0 row-scan/stuck/2/0"),
        (
            "right half of each character missing",
            "shift-register/stuck/2/0 shift-register/stuck/3/0",
        ),
        ("all characters are solid blocks", "shift-register/stuck/0/1"),
        ("the letters have a bar at the left", "dot-column/stuck/0/1"),
    ],
)
def test_words_are_of_the_fault_that_looks_so(words, names):
    assert best(words) == set(names.split())


@pytest.mark.parametrize(
    "words, same",
    [
        ("the left edge of each letter is cut off", "left dot column missing"),
        ("every letter has a bright bar on its left", "left dot column lit"),
        ("the bottom of each letter is missing", "lower half missing"),
        ("the right part of every character is dark", "right half missing"),
        ("the top edge of each letter is missing", "top row of dots missing"),
    ],
)
def test_more_words_for_the_same(words, same):
    assert best(words) == best(same)


def test_a_missing_row_is_one_that_is_never_read():
    assert best("top row of dots missing") == {f"row-scan/stuck/{line}/1" for line in range(3)}


@pytest.mark.parametrize("words", ["", "it is ugly", "dot column 7 missing", "dot row x missing"])
def test_what_is_not_understood_is_nothing(words):
    assert dots_noticed(words, SINGLE) is None
