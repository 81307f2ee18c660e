"""Which presses a walk asks for."""

import pytest

from helpers.profiles import small
from termprobe.cli.key_choice import (
    ALL,
    KEYBOARD_SCRIPT,
    QUICK,
    TELLING,
    chosen_presses,
    key_choice,
)
from termprobe.diagnosis.key_sets import quick_presses, telling_presses
from termprobe.plan.compile import compile_plan
from termprobe.plan.presses import chord_presses, coded_presses
from termprobe.profile.load import load
from termprobe.script.load import load as load_script
from termprobe.yamlfile import shipped_ids


@pytest.fixture(name="profile", params=shipped_ids("profiles"))
def _profile(request):
    return load(request.param)


FEWEST = {QUICK: quick_presses, TELLING: telling_presses}


def chosen(profile, which, has_chords):
    plan = compile_plan(profile, load_script(KEYBOARD_SCRIPT))
    return [step.id for step in key_choice(which, has_chords)(profile, plan).steps]


@pytest.mark.parametrize("which", [ALL, *FEWEST])
def test_what_is_listed_is_what_is_asked_for(profile, which):
    if which == TELLING:
        profile = small(profile)  # to tell faults apart takes seconds with all keys
    presses, proof = chosen_presses(profile, which)
    listed = [press.id for press in presses]
    assert listed == chosen(profile, which, has_chords=False)
    every = [press.id for press in coded_presses(profile)]
    wanted = set(every)
    if which in FEWEST:
        wanted = set(FEWEST[which](profile).presses)
    assert listed == [press_id for press_id in every if press_id in wanted]
    assert bool(proof) == (which in FEWEST)


def test_chords_come_behind_the_keys_where_the_keyboard_has_diodes():
    profile = load("ecma48-24x80")
    chords = [press.id for press in chord_presses(profile)]
    assert chords
    for which in (ALL, QUICK):
        keys = chosen(profile, which, has_chords=False)
        assert chosen(profile, which, has_chords=True) == keys + chords
