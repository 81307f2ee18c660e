"""Three keys at a time show each diode of a matrix: as many chords as rows times columns, and each shorted diode in its own."""

import dataclasses

import pytest

from termprobe.board.keyboard_board import simulate
from termprobe.diagnosis.key_conclusion import conclude
from termprobe.diagnosis.key_outcomes import Outcome
from termprobe.plan.presses import chord_presses, coded_presses, codes_of
from termprobe.profile.load import load
from termprobe.verdict.noticed import Listening, notice, outcome

ECMA = load("ecma48-24x80")
CHORDS = chord_presses(ECMA)
LINE = Listening(9600, 8, dict(codes_of(coded_presses(ECMA))))


def came(chord, *faults):
    events = simulate(ECMA, faults).chord([*chord.held, chord.key])
    return [(at_s, data, "") for at_s, data in events]


def walked(*faults):
    """Return what all chords give, as conclude() wants it."""
    sent = {chord.id: [data for _, data, _ in came(chord, *faults)] for chord in CHORDS}
    return {chord: [Outcome.of(b"".join(data))] for chord, data in sent.items()}


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
    assert (
        outcome(noticed) == "fail"
        and "a key that nobody pressed" in noticed[0].text
        and "the code of key" in noticed[0].text
    )


def test_a_chord_shows_only_its_own_diode():
    chord = CHORDS[20]
    failed = [
        other.key
        for other in CHORDS
        if outcome(
            notice(
                chord,
                came(
                    chord,
                    "key-matrix/diode-shorted/{}-{}".format(*ECMA.keyboard.key(other.key).matrix),
                ),
                LINE,
            )
        )
        == "fail"
    ]
    assert failed == [chord.key]


def test_without_diodes_there_is_nothing_to_test():
    assert chord_presses(load("singlebyte-24x80")) == ()
    assert chord_presses(dataclasses.replace(ECMA, keyboard=None)) == ()


BACK_SPACE = next(
    chord for chord in CHORDS if chord.id == "chord/back-space"
)  # with 1 and = held; the ghost would be `


def heard(*codes, error=""):
    return notice(
        BACK_SPACE, [(number * 0.6, code, error) for number, code in enumerate(codes)], LINE
    )


def test_keys_held_until_they_repeat_make_no_ghost_and_their_order_does_not_count():
    """Three keys take a person longer than the half second after which a held key repeats (common practice)."""
    assert [one.kind for one in heard(b"1", b"1", b"=", b"=", b"=", b"\b", b"\b")] == ["right"]
    assert [one.kind for one in heard(b"\b", b"1", b"=")] == ["right"]


def test_what_is_missing_and_what_is_too_much_is_named():
    assert (
        heard(b"1", b"\b")[0].text
        == '"=", the code of key "= +" did not come, though held together with others'
    )
    ghost = 'besides "1=" BS came "`", the code of key "` ~": a key that nobody pressed'
    assert heard(b"1", b"=", b"`", b"\b", b"`")[0].text == ghost
    assert heard(b"1", b"q")[0].kind == "wrong-code" and heard()[0].kind == "missing"


def test_errors_of_the_line_are_noticed_in_chords_too():
    noticed = heard(b"1", b"=", b"\b", error="parity")
    assert {one.kind for one in noticed} == {"parity", "right"} and outcome(noticed) == "fail"


@pytest.mark.parametrize("number", range(0, len(CHORDS), 9))
def test_the_diode_at_fault_is_concluded_from_the_chords(number):
    name = "key-matrix/diode-shorted/{}-{}".format(*ECMA.keyboard.key(CHORDS[number].key).matrix)
    first = conclude(ECMA, walked(name)).suspects[0]
    assert (
        first.faults == (name,) and first.supports == (CHORDS[number].id,) and not first.contradicts
    )


def test_chords_of_a_healthy_matrix_speak_for_no_fault_though_the_keys_repeat():
    assert conclude(ECMA, walked()).is_healthy
    repeated = {chord: [Outcome.of(heard[0].codes * 2)] for chord, heard in walked().items()}
    assert conclude(ECMA, repeated).is_healthy
