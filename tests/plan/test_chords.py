"""Three keys at a time show each diode of a matrix.

There are as many chords as rows times columns, and each shorted diode shows in its own.
"""

import dataclasses

import pytest

from helpers.scripts import ECMA, SINGLE
from termprobe.board.keyboard_board import simulate
from termprobe.link.base import Received
from termprobe.plan.presses import chord_presses, coded_presses, codes_of
from termprobe.report.press_words import in_words
from termprobe.verdict.listening import Listening, notice

CHORDS = chord_presses(ECMA)
LINE = Listening(9600, 8, dict(codes_of(coded_presses(ECMA))))


def noticed_of(chord, *faults):
    """Return what is noticed of a chord on a keyboard with these faults."""
    events = simulate(ECMA, faults).chord([*chord.held, chord.key])
    return notice(chord, [Received(at_s, data) for at_s, data in events], LINE)


def fails(noticed):
    return any(one.fails for one in noticed)


def shorted(chord):
    """Return the fault that is a shorted diode of the chord's key."""
    return "key-matrix/diode-shorted/{}-{}".format(*ECMA.keyboard.key(chord.key).matrix)


def test_every_key_with_a_diode_and_three_neighbours_has_a_chord():
    """Test theory: no chord of three keys tests two diodes, so rows times columns of them are
    needed for all.
    """
    assert len({chord.key for chord in CHORDS}) == len(CHORDS)
    with_diode = sum(bool(key.matrix) for key in ECMA.keyboard.keys)
    assert with_diode - 2 <= len(CHORDS) <= with_diode <= ECMA.keyboard.rows * ECMA.keyboard.columns


def test_a_healthy_matrix_makes_no_ghost():
    assert not any(fails(noticed_of(chord)) for chord in CHORDS)


@pytest.mark.parametrize("chord", CHORDS[::6], ids=lambda chord: chord.key)
def test_a_shorted_diode_shows_in_the_chord_of_its_key_and_names_the_ghost(chord):
    noticed = noticed_of(chord, shorted(chord))
    text = in_words(noticed[0])
    assert fails(noticed)
    assert "a key that nobody pressed" in text and "the code of key" in text


def test_a_chord_shows_only_its_own_diode():
    chord = CHORDS[20]
    failed = [other.key for other in CHORDS if fails(noticed_of(chord, shorted(other)))]
    assert failed == [chord.key]


def test_without_diodes_there_is_nothing_to_test():
    assert chord_presses(SINGLE) == ()
    assert chord_presses(dataclasses.replace(ECMA, keyboard=None)) == ()


def test_keys_of_one_row_of_the_matrix_have_no_rectangle():
    keys = tuple(key for key in ECMA.keyboard.keys if key.matrix and key.matrix[0] == 0)
    keyboard = dataclasses.replace(ECMA.keyboard, keys=keys)
    assert len(keys) > 3
    assert chord_presses(dataclasses.replace(ECMA, keyboard=keyboard)) == ()
