"""All that could be wrong with a keyboard: every cause once, the healthy keyboard first."""

import pytest

from termprobe.diagnosis.fault_names import parsed
from termprobe.diagnosis.key_hypotheses import hypotheses
from termprobe.diagnosis.key_hypothesis import HEALTHY, outcome_of
from termprobe.plan.presses import chord_presses, coded_presses
from termprobe.profile.load import load

PROFILES = [load("singlebyte-24x80"), load("ecma48-24x80")]


@pytest.mark.parametrize("profile", PROFILES, ids=lambda profile: profile.id)
def test_each_hypothesis_says_what_every_press_sends(profile):
    presses = coded_presses(profile) + chord_presses(profile)
    ids = {press.id for press in presses}
    found = hypotheses(profile, presses)
    names = [one.name for one in found]
    assert len(set(names)) == len(names) and names[0] == HEALTHY
    assert all(one.sends.keys() == ids and one.weight > 0 for one in found)
    sent = found[0].sends
    assert all(sent[press.id] == (outcome_of(press, press.code),) for press in presses)


def test_causes_stand_from_the_keyboard_outwards():
    found = hypotheses(PROFILES[0], coded_presses(PROFILES[0]))
    wheres = list(dict.fromkeys(parsed(one.name).where for one in found))
    assert wheres == [
        "healthy",
        "key-matrix",
        "keyboard-code",
        "transmitter-data",
        "parity",
        "host",
        "baud",
        "profile",
    ]
