"""What to probe for causes of what keys send."""

import pytest

from helpers.scripts import SINGLE
from termprobe.diagnosis.key_probing import key_probe_of
from termprobe.diagnosis.key_table import table_of
from termprobe.diagnosis.probing import probe_of


@pytest.mark.parametrize(
    "name, signal, meanwhile",
    [
        ("key-matrix/key-dead/return", "the contact of key return", "while key return is held"),
        ("key-matrix/rows-bridged/1-2", "rows 1 and 2 of the key matrix", "while keys of it"),
        ("key-matrix/shift-dead", "the line from SHIFT", "while key SHIFT is held down"),
        ("host/silent", "the transmit line at the connector", "while a key is held down"),
        ("parity/inverted", "the parity input of the transmitter", "while a key"),
    ],
)
def test_signal_and_what_keeps_it_busy(name, signal, meanwhile):
    probe = key_probe_of(name, SINGLE)
    assert probe.signal == signal and probe.meanwhile.startswith(meanwhile)
    assert probe.look_first_at


def test_every_cause_of_a_keyboard_has_something_to_look_at():
    names = {one.name for one in table_of(SINGLE).hypotheses[1:]}
    odd = [name for name in names if not (key_probe_of(name, SINGLE) or probe_of(name, SINGLE))]
    assert odd == []
