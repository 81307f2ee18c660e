"""Three keys at a time show each diode of a matrix: as many chords as rows times columns, and each shorted diode in its own."""

import dataclasses

import pytest

from termprobe.board.keyboard_faults import simulate
from termprobe.plan.presses import chord_presses, coded_presses, codes_of
from termprobe.profile.load import load
from termprobe.verdict.presses import Listening, notice, outcome

ECMA = load("ecma48-24x80")
CHORDS = chord_presses(ECMA)
LINE = Listening(9600, 8, dict(codes_of(coded_presses(ECMA))))


def came(chord, *faults):
    events = simulate(ECMA, faults).chord([*chord.held, chord.key])
    return [(at_s, data, "") for at_s, data in events]


def test_every_key_with_a_diode_and_three_neighbours_has_a_chord():
    """Test theory: no chord of three keys tests two diodes, so rows times columns of them are needed for all."""
    assert len({chord.key for chord in CHORDS}) == len(CHORDS)
    with_diode = sum(bool(key.matrix) for key in ECMA.keyboard.keys)
    assert with_diode - 2 <= len(CHORDS) <= with_diode <= ECMA.keyboard.rows * ECMA.keyboard.columns


def test_a_healthy_matrix_makes_no_ghost():
    assert all(outcome(notice(chord, came(chord), LINE)) == "pass" for chord in CHORDS)


@pytest.mark.parametrize("chord", CHORDS[::6], ids=lambda chord: chord.key)
def test_a_shorted_diode_shows_in_the_chord_of_its_key_and_names_the_ghost(chord):
    row, column = ECMA.keyboard.key(chord.key).matrix
    noticed = notice(chord, came(chord, f"key-matrix/diode-shorted/{row}-{column}"), LINE)
    assert outcome(noticed) == "fail" and "a key that nobody pressed" in noticed[0].text and "the code of key" in noticed[0].text


def test_a_chord_shows_only_its_own_diode():
    chord = CHORDS[20]
    failed = [other.key for other in CHORDS if outcome(notice(chord, came(
        chord, "key-matrix/diode-shorted/{}-{}".format(*ECMA.keyboard.key(other.key).matrix)), LINE)) == "fail"]
    assert failed == [chord.key]


def test_without_diodes_there_is_nothing_to_test():
    assert chord_presses(load("singlebyte-24x80")) == ()
    assert chord_presses(dataclasses.replace(ECMA, keyboard=None)) == ()
