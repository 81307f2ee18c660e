"""Which presses a walk asks for."""

import pytest

from termprobe.cli.key_choice import SCRIPT, chosen_presses, key_choice
from termprobe.diagnosis.key_sets import quick_presses
from termprobe.plan.compile import compile_plan
from termprobe.plan.presses import chord_presses, coded_presses
from termprobe.profile.load import load
from termprobe.script.load import load as load_script
from termprobe.yamlfile import shipped_ids


@pytest.fixture(name="profile", params=shipped_ids("profiles"))
def _profile(request):
    return load(request.param)


def chosen(profile, is_quick, has_chords):
    plan = compile_plan(profile, load_script(SCRIPT))
    return [step.id for step in key_choice(is_quick, has_chords)(profile, plan).steps]


@pytest.mark.parametrize("is_quick", [False, True])
def test_what_is_listed_is_what_is_asked_for(profile, is_quick):
    listed = [press.id for press in chosen_presses(profile, is_quick)]
    assert listed == chosen(profile, is_quick, has_chords=False)
    every = [press.id for press in coded_presses(profile)]
    wanted = set(every)
    if is_quick:
        wanted = set(quick_presses(profile).presses)
    assert listed == [press_id for press_id in every if press_id in wanted]


def test_chords_come_behind_the_keys_where_the_keyboard_has_diodes():
    profile = load("ecma48-24x80")
    chords = [press.id for press in chord_presses(profile)]
    assert chords
    for is_quick in (False, True):
        keys = chosen(profile, is_quick, has_chords=False)
        assert chosen(profile, is_quick, has_chords=True) == keys + chords
