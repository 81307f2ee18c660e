"""Why chords are not asked for."""

import dataclasses

from helpers.bench_plan import step
from termprobe.plan.compile import compile_plan
from termprobe.profile.load import load as load_profile
from termprobe.report.chord_words import no_chords_in_words
from termprobe.script.load import load as load_script

SCRIPT = load_script("keyboard")


def told(profile):
    return no_chords_in_words(profile.keyboard, compile_plan(profile, SCRIPT))


def test_a_keyboard_without_diodes_has_none_to_check():
    assert told(load_profile("singlebyte-24x80")).startswith(
        "none are asked for: this keyboard has no diodes that they could check; "
    )


def test_where_chords_are_asked_for_nothing_is_told():
    assert told(load_profile("ecma48-24x80")) == ""


def test_where_no_chords_were_wanted_nothing_is_told():
    profile = load_profile("singlebyte-24x80")
    plan = compile_plan(profile, SCRIPT)
    keys = tuple(one for one in plan.steps if one.kind == "press")
    assert no_chords_in_words(profile.keyboard, dataclasses.replace(plan, steps=keys)) == ""


def test_of_a_keyboard_with_diodes_the_plan_says_why():
    profile = load_profile("ecma48-24x80")
    plan = compile_plan(profile, SCRIPT)
    lacking = step("diodes", "chords", "chords", not_fitted="no rectangle")
    told = no_chords_in_words(profile.keyboard, dataclasses.replace(plan, steps=(lacking,)))
    assert told == "none are asked for: no rectangle"
