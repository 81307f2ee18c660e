"""What to probe for suspects of a symptom, and what to send meanwhile."""

import pytest

from helpers.scripts import SINGLE
from termprobe.diagnosis.key_conclusion import Suspect
from termprobe.diagnosis.symptom_probing import probes_of_each
from termprobe.profile.load import load

CLUB = load("club-16x64")


def meanwhile(*names, profile=SINGLE):
    (probes,) = probes_of_each([Suspect(names, "", "", 1.0, (), ())], profile)
    return [one.meanwhile for one in probes]


@pytest.mark.parametrize(
    "name, words",
    [
        ("bank-1-data/stuck/1/1", 'while "20" is sent over and over'),
        ("receiver-data/bridged/3-5/low", 'while "H`"'),
        ("decoder/dead/left", "while BS (left) is sent over and over"),
        ("ram-address/bridged/3-7/low", "while text that fills the screen and lets it scroll"),
        ("scroll/dead", "while text that fills the screen and lets it scroll"),
        ("keyboard-code/stuck/1/1", "while keys are held down one after the other"),
        ("key-matrix/key-dead/return", "while key return is held down"),
    ],
)
def test_what_keeps_the_lines_busy(name, words):
    (told,) = meanwhile(name)
    assert told.startswith(words)


def test_two_lines_that_touch_are_sent_characters_in_which_they_differ():
    (told,) = meanwhile("receiver-data/bridged/3-5/low")
    for character in told.split('"')[1]:
        assert (ord(character) >> 3 & 1) != (ord(character) >> 5 & 1)


def test_one_fault_of_each_block_is_probed_for():
    names = ("bank-0-data/stuck/1/1", "bank-0-data/stuck/2/1", "bank-1-data/stuck/1/1")
    (probes,) = probes_of_each([Suspect(names, "", "", 1.0, (), ())], CLUB)
    assert [one.signal for one in probes] == [
        "data line 1 (U22 pin 12) of RAM bank 0",
        "data line 1 (U32 pin 12) of RAM bank 1",
    ]
