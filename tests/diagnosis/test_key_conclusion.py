"""Concluding from presses: every single fault of both keyboards is named first, despite slips."""

import random

import pytest

from helpers.key_walks import walked
from termprobe.board.faults.catalogue import keyboard_catalogue
from termprobe.diagnosis import key_conclusion
from termprobe.diagnosis.fault_names import parsed
from termprobe.diagnosis.key_conclusion import Conclusion, conclude
from termprobe.diagnosis.key_outcomes import Outcome
from termprobe.diagnosis.key_table import table_of
from termprobe.plan.presses import coded_presses
from termprobe.profile.load import load
from termprobe.report.key_suspects import render

PROFILES = [load("singlebyte-24x80"), load("ecma48-24x80")]
BIT_PAIRED = PROFILES[0]
TIMES = {"key-flaky": 2}
"""Kinds of faults that show only where each press is made so often."""

of_both = pytest.mark.parametrize("profile", PROFILES, ids=lambda profile: profile.id)


def visible_faults(profile):
    """Return the catalogue's faults that some coded press shows.

    Diodes need chords, BREAK sends no code.
    """
    table, listed = table_of(profile), keyboard_catalogue(profile)
    shown = [one.name for one in table.hypotheses if one.sends != table.healthy.sends]
    return [name for name in shown if name in listed]


def any_code(chance):
    return [Outcome.of(bytes([chance.randrange(0x21, 0x7F)]))]


@of_both
def test_the_true_fault_is_first_after_the_full_walk(profile):
    """Some of each kind and some more; tests/benchmarks/keyboard.py tries them all."""
    faults = visible_faults(profile)
    of_each_kind = {parsed(name).kind: name for name in faults}
    chosen = [*of_each_kind.values(), *random.Random(7).sample(faults, 45)]
    assert len(faults) > 370
    for name in chosen:
        times = TIMES.get(parsed(name).kind, 1)
        conclusion = conclude(profile, walked(profile, name, times=times))
        assert conclusion.explained and name in conclusion.suspects[0].faults, name


@of_both
def test_the_true_fault_is_among_the_first_three_where_one_press_in_ten_was_a_slip(profile):
    chance = random.Random(11)
    kinds = ("stuck", "row-open", "column-open", "shift-dead", "rows-bridged")
    names = [name for name in visible_faults(profile) if parsed(name).kind in kinds]
    for name in chance.sample(names, 25):
        came = walked(profile, name)
        for press in chance.sample(sorted(came), len(came) // 10):
            came[press] = any_code(chance)
        suspects = conclude(profile, came).suspects[:3]
        assert any(name in suspect.faults for suspect in suspects), name


@of_both
def test_a_healthy_keyboard_has_no_suspects(profile):
    for came in (walked(profile), {}, {"press/q": []}, {"press/of-no-key": [Outcome.of(b"?")]}):
        conclusion = conclude(profile, came)
        assert conclusion.is_healthy and conclusion.explained
        assert not conclusion.suspects and not conclusion.next and not conclusion.odd


@of_both
def test_of_presses_that_went_right_no_hypothesis_is_worked_out(profile, monkeypatch):
    """It would take minutes of a keyboard of thousands of keys."""
    monkeypatch.setattr(key_conclusion, "table_for", None)
    came = walked(profile)
    for count in (1, 7, len(came)):
        some = dict(random.Random(count).sample(sorted(came.items()), count))
        assert conclude(profile, some).is_healthy


@of_both
def test_the_table_says_of_presses_that_went_right_that_nothing_is_wrong(profile, monkeypatch):
    monkeypatch.setattr(key_conclusion, "_is_all_right", lambda *_: False)
    came = walked(profile)
    for count in (1, 7, len(came)):
        some = dict(random.Random(count).sample(sorted(came.items()), count))
        assert conclude(profile, some) == Conclusion(explained=True, is_healthy=True)


@of_both
def test_one_press_that_no_fault_predicts_is_named_and_may_be_a_slip(profile):
    heard = walked(profile) | {"press/q": [Outcome.of(b"5\x03z")]}
    conclusion = conclude(profile, heard)
    assert conclusion.is_healthy and conclusion.odd == ("press/q",)
    page = render(conclusion, {press.id: press for press in coded_presses(profile)})
    assert 'what came of "Q" sends "q". A slip' in " ".join(page.split())
    assert max(map(len, page.split("\n"))) <= 80


@of_both
@pytest.mark.parametrize("name", ["key-matrix/rows-swapped/0-3", "key-matrix/columns-swapped/2-5"])
def test_exchanged_lines_of_the_matrix_are_named(profile, name):
    conclusion = conclude(profile, walked(profile, name))
    first = conclusion.suspects[0]
    assert conclusion.explained and first.faults == (name,) and first.probability > 0.99


def test_presses_for_and_against_are_named():
    came = walked(BIT_PAIRED, "key-matrix/row-open/3") | {"press/x": [Outcome.of(b"c")]}
    first = conclude(BIT_PAIRED, came).suspects[0]
    assert first.faults == ("key-matrix/row-open/3",)
    assert "press/q" in first.supports and first.contradicts == ("press/x",)


def test_what_no_single_fault_explains_is_said_not_to_be_explained():
    chance = random.Random(5)
    came = {press.id: any_code(chance) for press in coded_presses(BIT_PAIRED)}
    assert not conclude(BIT_PAIRED, came).explained


def with_slips(came, count):
    """Return the walk with something that no fault sends at so many presses that had sent."""
    sending = [press for press, heard in came.items() if heard != [Outcome.of(b"")]]
    return came | {press: [Outcome.of(b"5\x03z")] for press in sending[:count]}


def test_one_press_in_ten_and_one_more_may_contradict_what_explains_a_walk():
    came = walked(BIT_PAIRED, "key-matrix/row-open/3")
    borne = len(came) // 10 + 1
    for slips, is_explained in ((borne, True), (borne + 1, False)):
        conclusion = conclude(BIT_PAIRED, with_slips(came, slips))
        assert conclusion.suspects[0].faults == ("key-matrix/row-open/3",)
        assert conclusion.explained is is_explained, slips


def test_one_odd_press_on_a_keyboard_that_seems_healthy_is_explained_and_two_are_not():
    for slips, is_explained in ((1, True), (2, False)):
        conclusion = conclude(BIT_PAIRED, with_slips(walked(BIT_PAIRED), slips))
        assert conclusion.is_healthy and conclusion.explained is is_explained
        assert len(conclusion.odd) == slips


def test_a_fault_that_accounts_for_half_of_what_went_wrong_explains_nothing():
    dead = {"press/q": [Outcome.of(b"")], "press/m": [Outcome.of(b"")]}
    conclusion = conclude(BIT_PAIRED, walked(BIT_PAIRED) | dead)
    assert not conclusion.is_healthy and not conclusion.explained


@pytest.mark.parametrize("name", ["key-matrix/row-open/3", "key-matrix/key-dead/q"])
def test_the_presses_that_are_named_next_decide_between_the_suspects(name):
    came = {"press/q": [Outcome.of(b"")]}
    presses = {press.id: press for press in coded_presses(BIT_PAIRED)}
    before = conclude(BIT_PAIRED, came)
    assert len(before.suspects[0].faults) > 1
    named = [presses[press] for press in before.next]
    for _ in range(2):
        came |= walked(BIT_PAIRED, name, presses=named)
        after = conclude(BIT_PAIRED, came)
        named = [presses[press] for press in after.next]
    assert after.suspects[0].faults == (name,)


def test_the_title_names_two_causes_and_counts_more():
    two = conclude(BIT_PAIRED, walked(BIT_PAIRED, "keyboard-code/stuck/3/0")).suspects[0]
    assert len(two.faults) == 2 and "; or " in two.title
    nothing = {"press/q": [Outcome.of(b"")]}
    many = max(conclude(BIT_PAIRED, nothing).suspects, key=lambda suspect: len(suspect.faults))
    assert many.title.endswith(f" (or {len(many.faults) - 1} more that look the same)")
