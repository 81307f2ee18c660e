"""Three keys at a time: the diode at fault is concluded from the chords."""

import pytest

from helpers.scripts import ECMA
from termprobe.board.keyboard_board import simulate
from termprobe.diagnosis.key_conclusion import conclude
from termprobe.diagnosis.key_outcomes import Outcome
from termprobe.plan.presses import chord_presses

CHORDS = chord_presses(ECMA)


def walked(*faults, times=1):
    """Return what all chords give, each code so often, as conclude() wants it."""
    keyboard = simulate(ECMA, faults)
    came = {}
    for chord in CHORDS:
        events = keyboard.chord([*chord.held, chord.key])
        came[chord.id] = [Outcome.of(b"".join(data for _, data in events) * times)]
    return came


@pytest.mark.parametrize("number", range(0, len(CHORDS), 9))
def test_the_diode_at_fault_is_concluded_from_the_chords(number):
    row, column = ECMA.keyboard.key(CHORDS[number].key).matrix
    name = f"key-matrix/diode-shorted/{row}-{column}"
    first = conclude(ECMA, walked(name)).suspects[0]
    assert first.faults == (name,)
    assert first.supports == (CHORDS[number].id,) and not first.contradicts


def test_chords_of_a_healthy_matrix_speak_for_no_fault_though_the_keys_repeat():
    assert conclude(ECMA, walked()).is_healthy
    assert conclude(ECMA, walked(times=2)).is_healthy
