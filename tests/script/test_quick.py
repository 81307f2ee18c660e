"""The script of few looks: what it shows, by coverage, and what it costs, on each profile."""

import dataclasses
import functools

import pytest

from helpers.boards import changed, more
from helpers.scripts import ECMA, SINGLE
from termprobe import yamlfile
from termprobe.cli.kept_dictionary import kept_dictionary
from termprobe.diagnosis.coverage import coverage_of
from termprobe.diagnosis.covering import covering_of
from termprobe.diagnosis.dictionary import fault_dictionary
from termprobe.diagnosis.showing import showing_of
from termprobe.plan.compile import compile_plan
from termprobe.plan.covered import with_covering
from termprobe.plan.effort import effort
from termprobe.profile.load import load as load_profile
from termprobe.script.load import load

QUICK = load("quick")
MOST_LOOKS, MOST_S = 6, 35
CHARACTER_S = 10 / 9600
ERASES = ("erase-to-end-of-line", "erase-to-end-of-display")


def erasing(profile):
    """Return `profile` with the two erase commands, where it has none."""
    missing = [name for name in ERASES if profile.command(name) is None]
    codes = dict(zip(ERASES, (b"\x1bT", b"\x1bY"), strict=True))
    return changed(profile, commands=[more(name, [codes[name]], name) for name in missing])


def not_erasing(profile):
    kept = tuple(command for command in profile.commands if command.action not in ERASES)
    return dataclasses.replace(profile, commands=kept)


USUAL, PLAINER = erasing(SINGLE), not_erasing(SINGLE)
SMALL = changed(USUAL, display={"rows": 16, "columns": 64})
SHIPPED = {name: load_profile(name) for name in yamlfile.shipped_ids("profiles")}
BOARDS = {name: profile for name, profile in SHIPPED.items() if profile.circuit is not None}
BOARDS |= {"24x80": USUAL, "16x64": SMALL, "24x80 that cannot erase": PLAINER}


@functools.cache
def known_faults(name):
    """Return a profile of BOARDS, the plan of the script on it, and its FaultDictionary."""
    profile = BOARDS[name]
    plan = compile_plan(profile, QUICK)
    if name in SHIPPED:
        text = yamlfile.read_text(yamlfile.find(name, "profiles"))
        return profile, plan, kept_dictionary(plan, profile, text)
    return profile, plan, fault_dictionary(profile, plan)


def spared(plan, dictionary):
    """Return the plan with the looks covered of which others show all that they would."""
    return with_covering(plan, covering_of(dictionary, plan, CHARACTER_S))


@pytest.mark.parametrize("name", BOARDS)
def test_six_looks_and_little_time_show_every_display_fault_that_can_be_shown(name):
    profile, plan, dictionary = known_faults(name)
    plan = spared(plan, dictionary)
    found = coverage_of(dictionary, plan, profile)
    assert found.display.missed == 0 and found.display.detected > 800 and found.shows_all_bits
    assert found.dots.missed == 0 and found.dots.detected > 70 and found.shows_all_dots
    cost = effort(plan.steps, CHARACTER_S)
    assert cost.looks <= MOST_LOOKS and cost.sending_s + cost.looking_s <= MOST_S


@pytest.mark.parametrize("name", BOARDS)
def test_each_fault_is_shown_by_two_of_the_looks_asked_but_where_one_alone_can(name):
    profile, plan, dictionary = known_faults(name)
    showing = showing_of(dictionary, plan, profile)
    once = [fault.name for fault in showing.faults if len(fault.looks) == 1]
    found = coverage_of(dictionary, spared(plan, dictionary), profile)
    shown = found.display.detected + found.dots.detected
    assert found.human.twice == shown - len(once)
    assert all("erase" in name for name in once), once


def test_a_terminal_that_cannot_be_simulated_is_tried_with_all_but_clearing():
    plan = compile_plan(ECMA, QUICK)
    unfitted = [step.id for step in plan.steps if step.not_fitted]
    assert set(unfitted) <= {"cleared-and-erased", "cleared"}
    cost = effort(plan.steps, CHARACTER_S)
    assert cost.looks <= MOST_LOOKS and cost.sending_s + cost.looking_s <= MOST_S
