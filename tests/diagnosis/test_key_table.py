"""The table of one profile: what it keeps, and its classes."""

from termprobe.diagnosis.key_table import KeyTable, table_for, table_of
from termprobe.plan.presses import chord_presses, coded_presses
from termprobe.profile.load import load

ECMA = load("ecma48-24x80")
FEW = [press for press in coded_presses(ECMA) if press.key in ("q", "w", "a")]


def test_the_table_is_made_once_and_has_chords_only_where_one_was_pressed():
    coded, chord = coded_presses(ECMA), chord_presses(ECMA)[0]
    table = table_for(ECMA, [coded[0].id, "press/of-no-key"])
    assert table is table_of(ECMA) is table_for(ECMA, [])
    assert list(table.presses) == [press.id for press in coded]
    with_chords = table_for(ECMA, [coded[0].id, chord.id])
    assert with_chords is table_for(ECMA, [chord.id])
    assert with_chords.presses.keys() - table.presses.keys() == {
        press.id for press in chord_presses(ECMA)
    }


def test_hypotheses_of_one_class_predict_the_same_and_those_of_two_do_not():
    table = KeyTable(ECMA, FEW)
    pressed = ("press/q", "press/a+shift")
    classes = table.classes(pressed)
    assert sum(len(one.members) for one in classes) == len(table.hypotheses)
    predicted = set()
    for found in classes:
        of_class = {tuple(map(one.sends.get, pressed)) for one in found.members}
        assert len(of_class) == 1
        predicted |= of_class
    assert len(predicted) == len(classes)


def test_the_most_common_of_a_class_stands_first():
    for found in KeyTable(ECMA, FEW).classes(("press/q",)):
        weights = [one.weight for one in found.members]
        assert weights == sorted(weights, reverse=True)


def test_changes_of_a_class_are_how_its_members_differ_from_the_healthy_keyboard():
    table = KeyTable(ECMA, FEW)
    for found in table.classes([press.id for press in FEW]):
        changes = {table.changes[number] for number in found.changes}
        assert changes == set(found.members[0].changes(table.healthy).items())
