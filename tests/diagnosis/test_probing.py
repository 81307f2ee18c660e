"""What to probe: the line with its chip and pin, what to expect, where to look first."""

import dataclasses

import pytest

from helpers.scripts import SINGLE
from termprobe.board.faults.catalogue import catalogue
from termprobe.diagnosis.key_conclusion import Suspect
from termprobe.diagnosis.probing import named_for_probing, probe_of
from termprobe.profile.model import Profile

PINS = tuple(f"K7 pin {pin}" for pin in range(3, 10))
LABELLED = dataclasses.replace(
    SINGLE, circuit=dataclasses.replace(SINGLE.circuit, labels={"bank-1-data": PINS})
)


def test_every_fault_of_the_display_has_something_to_probe_or_to_try():
    assert isinstance(SINGLE, Profile)
    without = {name for name in catalogue(SINGLE) if probe_of(name, SINGLE) is None}
    assert {name.split("/")[0] for name in without} == {"key-matrix", "echo-gate", "parity"}


@pytest.mark.parametrize(
    "name, signal, expect, look_first_at",
    [
        ("bank-1-data/stuck/3/0", "data line 3 (K7 pin 6) of RAM bank 1", "stays low", "joints"),
        (
            "bank-1-data/bridged/2-5/high",
            "data lines 2 (K7 pin 5) and 5 (K7 pin 8) of RAM bank 1",
            "alike at every moment",
            "solder splashes",
        ),
        ("ram-address/swapped/0-7", "address lines 0 and 7", "pin of its own number", "layout"),
        ("row-counter/carry-lost/4", "output line 4 of the row counter", "carry lost", "joints"),
        ("decoder/acts-as/bell-return", "outputs for bell and return", "pulse once", "gate"),
        ("clear/no-home", "circuit for clear", "pulse", "gate"),
        ("baud/ratio/2", "clock input of the UART", "sixteen times", "straps"),
        ("cell/stuck/1-2-3/0", "", "", "the RAM chip of this bit, not at its lines"),
    ],
)
def test_what_to_do_about_each_kind(name, signal, expect, look_first_at):
    probe = probe_of(name, LABELLED)
    assert signal in probe.signal and expect in probe.expect
    assert look_first_at in probe.look_first_at and bool(signal) == bool(probe.signal)


def test_causes_outside_the_board_have_nothing_to_probe():
    assert probe_of("host/silent", SINGLE) is None


def test_where_many_faults_look_alike_it_is_too_early_to_probe():
    few, many = ("a", "b", "c"), tuple("abcde")
    suspects = [Suspect(names, "", "", 1.0, (), ()) for names in (few, many)]
    assert named_for_probing(suspects[:1]) == ("a", "b") and named_for_probing([]) == ()
    assert named_for_probing(suspects[1:]) == ()
