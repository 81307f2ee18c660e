"""By which presses faults of a keyboard are shown, against keyboards that have them."""

import functools
from collections import Counter

from helpers.scripts import ECMA, SINGLE
from termprobe.board.faults.catalogue import catalogue, keyboard_catalogue
from termprobe.board.keyboard_board import simulate
from termprobe.diagnosis.cover import numbers_of
from termprobe.diagnosis.key_coverage import shown_by_presses
from termprobe.plan.presses import chord_presses, coded_presses

PRESSES = coded_presses(SINGLE)


@functools.cache
def found():
    """Return what all presses show of each fault."""
    return shown_by_presses(SINGLE, PRESSES, catalogue(SINGLE))


def walk(presses, fault=()):
    """Return what a keyboard sends at each of `presses`, one after another."""
    keyboard = simulate(SINGLE, fault)
    return [
        b"".join(data for _, data in keyboard.press(press.key, frozenset(press.modifiers)))
        for press in presses
    ]


def test_a_fault_is_shown_by_just_the_presses_that_send_something_else():
    good = walk(PRESSES)
    for name in keyboard_catalogue(SINGLE):
        came = walk(PRESSES, [name])
        differ = {number for number, data in enumerate(came) if data != good[number]}
        if name not in found():
            assert not differ, name
        elif found()[name].want.least == 1:
            assert differ == set(numbers_of(found()[name].want.items)), name
        else:
            assert differ < set(numbers_of(found()[name].want.items)), name


def test_a_key_that_makes_contact_every_second_time_takes_two_presses_of_it():
    states = Counter(press.key for press in PRESSES)
    for name in (name for name in keyboard_catalogue(SINGLE) if "key-flaky" in name):
        key = name.rsplit("/", 1)[1]
        assert (name in found()) == (states[key] > 1), name
    items, least = found()["key-matrix/key-flaky/a"].want
    assert least == 2 and {PRESSES[number].key for number in numbers_of(items)} == {"a"}


def test_faults_of_transmitter_and_line_are_heard_too():
    where = {name.split("/")[0] for name in found()}
    assert where == {"key-matrix", "keyboard-code", "transmitter-data", "parity", "baud"}
    # What the code lines do to a code, the transmitter's do as well: no press tells them apart.
    alike = (found()[f"{bus}/swapped/2-5"].sends for bus in ("keyboard-code", "transmitter-data"))
    assert len(set(alike)) == 1


def test_a_diode_is_shown_by_its_chord_alone():
    names = keyboard_catalogue(ECMA)
    presses = coded_presses(ECMA) + chord_presses(ECMA)
    of_chords = shown_by_presses(ECMA, presses, names)
    diodes = [name for name in names if "diode-shorted" in name]
    assert len(diodes) > 60
    for name in diodes:
        shown = [presses[number] for number in numbers_of(of_chords[name].want.items)]
        assert shown and all(press.held for press in shown), name


def test_no_presses_show_nothing():
    assert shown_by_presses(SINGLE, (), catalogue(SINGLE)) == {}
    assert set(shown_by_presses(SINGLE, PRESSES, {"baud/ratio/2"})) == {"baud/ratio/2"}
