"""The smallest sets of presses that show all faults of lines, or tell them apart."""

import random

import pytest

from helpers.key_walks import walked
from helpers.profiles import small
from termprobe.diagnosis.fault_names import parsed
from termprobe.diagnosis.key_sets import LINE_KINDS, quick_presses, telling_presses
from termprobe.diagnosis.key_table import table_of
from termprobe.plan.presses import coded_presses
from termprobe.profile.load import load

PROFILES = [load("singlebyte-24x80"), load("ecma48-24x80")]

SMALL = small(PROFILES[0])


@pytest.mark.parametrize("profile", PROFILES, ids=lambda profile: profile.id)
def test_the_quick_set_shows_every_fault_of_a_line_and_is_proved_smallest(profile):
    """No fewer presses than the matrix' longer side has lines can show that each is connected."""
    quick = quick_presses(profile)
    assert quick.is_smallest and not quick.is_telling
    assert len(quick.presses) == max(profile.keyboard.rows, profile.keyboard.columns)
    presses = [press for press in coded_presses(profile) if press.id in quick.presses]
    healthy = walked(profile, presses=presses)
    for name in random.Random(3).sample(quick.faults, 60):
        assert walked(profile, name, presses=presses) != healthy, name


@pytest.mark.parametrize("profile", PROFILES, ids=lambda profile: profile.id)
def test_no_fault_of_a_line_is_left_out(profile):
    names = [parsed(one.name) for one in table_of(profile).hypotheses]
    of_code = [name for name in names if name.where == "keyboard-code"]
    of_matrix = [name for name in names if name.kind in LINE_KINDS]
    expected = {str(name) for name in (*of_code, *of_matrix)}
    assert set(quick_presses(profile).faults) == expected and len(expected) > 150


@pytest.fixture(scope="module")
def few():
    """What is sent of the faults of lines of a small keyboard, the healthy one first; two sets."""
    table, quick = table_of(SMALL), quick_presses(SMALL)
    lines = [one.sends for one in table.hypotheses if one.name in quick.faults]
    return [table.healthy.sends, *lines], quick, telling_presses(SMALL)


def told_apart(lines, presses):
    """Return how many different things come of `presses`."""
    return len({tuple(map(sends.get, presses)) for sends in lines})


def shown(lines, presses):
    """Return how many of the faults `presses` show."""
    healthy = tuple(map(lines[0].get, presses))
    return sum(tuple(map(sends.get, presses)) != healthy for sends in lines[1:])


def test_the_presses_that_tell_apart_do_as_much_as_all_presses(few):
    lines, quick, telling = few
    assert told_apart(lines, telling.presses) == told_apart(lines, tuple(lines[0]))
    assert len(quick.presses) <= len(telling.presses) < len(lines[0])
    assert telling.lower_bound >= quick.lower_bound


@pytest.mark.parametrize("does", [shown, told_apart])
def test_no_press_of_either_set_can_be_left_out(few, does):
    lines, quick, telling = few
    chosen = {shown: quick, told_apart: telling}[does].presses
    for left_out in chosen:
        rest = [press for press in chosen if press != left_out]
        assert does(lines, rest) < does(lines, chosen), left_out


def test_both_sets_are_of_the_faults_of_lines(few):
    lines, quick, telling = few
    assert quick.faults == telling.faults and len(quick.faults) == len(lines) - 1
    assert quick.lower_bound == len(quick.presses)
    assert telling.is_telling and telling.lower_bound <= len(telling.presses)
