"""Which looks spare which others: over every fault, and in runs on boards with each of them."""

import functools

import pytest
from hypothesis import given
from hypothesis import strategies as st

from helpers.boards import changed
from helpers.examples import one_in
from helpers.plain_play import PlainPlay
from helpers.scripts import SINGLE, acceptance, asked, look, plan_of, spared
from termprobe import yamlfile
from termprobe.board.faults.catalogue import catalogue
from termprobe.board.wiring import wire
from termprobe.cli.kept_dictionary import kept_dictionary
from termprobe.diagnosis.cover import numbers_of
from termprobe.diagnosis.covering import covering_of
from termprobe.diagnosis.dictionary import FaultDictionary, fault_dictionary
from termprobe.diagnosis.evident import Evident, differing
from termprobe.diagnosis.playing import BothWays, has_part_in_display
from termprobe.diagnosis.shown import AS_WANTED, Sight
from termprobe.journal.records import AS_EXPECTED, DIFFERS, Answer, Answered
from termprobe.plan.choose import choose
from termprobe.plan.covered import covering_in, with_covering
from termprobe.plan.model import Look
from termprobe.profile.load import load as load_profile
from termprobe.runner.course import chain, course_of
from termprobe.runner.trail import KeptOfRun
from termprobe.verdict.model import Covered

CHARACTER_S = 10 / 9600
SHIPPED = [
    (script_id, profile_id)
    for script_id in yamlfile.shipped_ids("scripts")
    for profile_id in yamlfile.shipped_ids("profiles")
]


def bits(ids, looks):
    return sum(1 << looks.index(each) for each in ids)


def fails(shown, observer):
    """Return the looks at which whoever sees characters, and maybe cursor or bell, sees a fault."""
    is_seen = [sight.cells > 0 or bool(observer) and getattr(sight, observer) for sight in shown]
    return sum(1 << number for number, one in enumerate(is_seen) if one)


@functools.cache
def ways_to_fail(script_id, profile_id):
    """Return (fault, looks that may fail, looks that fail however) for each fault and observer."""
    told = []
    for name, ways in dictionary_for(script_id, profile_id).faults.items():
        for observer in ("", "cursor", "bells"):
            first, second = (fails(shown, observer) for shown in ways)
            told.append((name, first | second, first & second))
    return told


def acquitted(told, covering, looks):
    """Yield (fault, look) where a covered look may fail and all that cover it pass."""
    masks = {step_id: (bits([step_id], looks), bits(by, looks)) for step_id, by in covering.items()}
    for name, perhaps, surely in told:
        for step_id, (look_bit, by) in masks.items():
            if perhaps & look_bit and not surely & by:
                yield name, step_id


def too_seldom(dictionary, covering):
    """Yield each Evident of which too few of the looks that are asked show the fault."""
    looks = [step_id for step_id in dictionary.looks if step_id not in covering]
    asked_looks = bits(looks, dictionary.looks)
    for evident in set(dictionary.evident()):
        wanted = min(2, evident.surely.bit_count())
        if (evident.surely & asked_looks).bit_count() < wanted:
            yield evident


@functools.cache
def dictionary_for(script_id, profile_id):
    """Return what `spared` has kept already."""
    text = yamlfile.read_text(yamlfile.find(profile_id, "profiles"))
    return kept_dictionary(spared(script_id, profile_id), load_profile(profile_id), text)


@pytest.mark.parametrize("script_id, profile_id", SHIPPED)
def test_no_shipped_look_is_spared_that_would_show_what_those_that_cover_it_do_not(
    script_id, profile_id
):
    plan = spared(script_id, profile_id)
    covering = covering_in(plan)
    if load_profile(profile_id).circuit is None:
        assert not covering, "nothing can be proven without a circuit: all looks are asked"
        return
    dictionary = dictionary_for(script_id, profile_id)
    assert dictionary.untrusted == 0
    told = ways_to_fail(script_id, profile_id)
    assert list(acquitted(told, covering, dictionary.looks)) == []
    assert list(too_seldom(dictionary, covering)) == []
    asked_looks = {step.id for step in asked(plan)}
    index = plan.index
    for step_id, by in covering.items():
        assert asked_looks.issuperset(by) and max(index[each] for each in by) < index[step_id]


def test_acceptance_spares_some_and_none_of_these_coverings_is_idle():
    """Take one of the looks that cover another away, and a fault is acquitted."""
    dictionary = dictionary_for("acceptance", "singlebyte-24x80")
    covering = covering_in(spared("acceptance", "singlebyte-24x80"))
    told = [*ways_to_fail("acceptance", "singlebyte-24x80")]
    told += [("a bit", perhaps, surely) for surely, perhaps in dictionary.stuck_bits]
    assert len(covering) >= 10
    for step_id, by in covering.items():
        for left_out in by:
            fewer = {step_id: tuple(each for each in by if each != left_out)}
            assert any(acquitted(told, fewer, dictionary.looks)), (step_id, left_out)


# -- runs ------------------------------------------------------------------------------------------


def run_on(plain, plan):
    """Return the Course of a run of the looks of `plan` on a board that is played plainly."""
    records, kept, on_screen = [], KeptOfRun(plan), None
    while (step := (course := course_of(plan, records, kept)).next_step()) is not None:
        for part in chain(plan, step, on_screen):
            *differs, _ = plain.play(part)
        on_screen = step.id
        records.append(Answered(step.id, Answer(DIFFERS if any(differs) else AS_EXPECTED)))
    return course


def looks_alone(plan):
    fitted = [step for step in plan.steps if isinstance(step, Look) and not step.not_fitted]
    return choose(plan, [step.id for step in fitted])


@functools.cache
def acceptance_looks():
    return looks_alone(spared("acceptance", "singlebyte-24x80"))


def passed_as_covered(course):
    return {step.id for step in course.verdicts.steps if isinstance(step.because, Covered)}


def assert_nothing_is_acquitted(plan, name):
    """Assert that a run passes no look as covered that fails alone, or after all others."""
    course = run_on(PlainPlay(SINGLE, name), plan)
    passed = passed_as_covered(course)
    if not passed:
        return course
    plain = PlainPlay(SINGLE, name)
    for shown in (plain.in_order(plan), plain.alone(plan)):
        for step, (*differs, _) in zip(plan.steps, shown, strict=True):
            assert not (step.id in passed and any(differs)), (name, step.id)
    return course


def is_of_display(fault):
    wiring = wire(SINGLE)
    fault.apply(wiring)
    return has_part_in_display(wiring, wire(SINGLE))


def acquitted_in(course, name):
    """Return the looks passed as covered that fail alone, or after all others.

    The dictionary says which fail; the tests of playing hold it to plain play.
    """
    dictionary = dictionary_for("acceptance", "singlebyte-24x80")
    in_order, alone = map(differing, dictionary.faults[name])
    failing = numbers_of(in_order | alone)
    return passed_as_covered(course).intersection(dictionary.looks[number] for number in failing)


@pytest.mark.parametrize("name", ["clear/no-home", "decoder/dead/down"])
def test_a_fault_that_was_acquitted_once_is_no_more(name):
    """One look passed as covered on such boards that fails by itself: `clear`, the scrolled one."""
    course = assert_nothing_is_acquitted(acceptance_looks(), name)
    assert course.verdicts.verdict == "fail"


@given(st.sampled_from(sorted(catalogue(SINGLE))))
def test_no_run_on_a_board_with_a_fault_passes_a_look_that_fails(name):
    assert_nothing_is_acquitted(acceptance_looks(), name)


@pytest.mark.slow
def test_no_run_on_boards_with_faults_of_all_blocks_passes_a_look_that_fails():
    """Of the faults that leave the display as it is every tenth is tried."""
    shown_at_all = without_part = 0
    for name, fault in one_in(10, catalogue(SINGLE).items()):
        without_part += not is_of_display(fault)
        if is_of_display(fault) or without_part % 10 == 0:
            course = run_on(PlainPlay(SINGLE, fault), acceptance_looks())
            assert acquitted_in(course, name) == set(), name
            shown_at_all += course.verdicts.verdict == "fail"
    assert shown_at_all > 80


def test_a_relation_that_is_wrong_acquits_a_fault_in_a_run():
    plan = acceptance_looks()
    first, *others = (step.id for step in plan.steps)
    wrong = with_covering(plan, dict.fromkeys(others, (first,)))
    names = ("decoder/dead/down", "scroll/dead", "address/row-ignored")
    with pytest.raises(AssertionError):
        for name in names:
            assert_nothing_is_acquitted(wrong, name)
    assert any(acquitted_in(run_on(PlainPlay(SINGLE, name), wrong), name) for name in names)


def test_on_a_good_board_the_looks_that_are_asked_pass_and_so_do_all():
    course = run_on(PlainPlay(SINGLE), acceptance_looks())
    verdicts = course.verdicts
    assert verdicts.verdict == "pass"
    assert verdicts.passed == {step.id for step in asked(acceptance_looks())}


# -- made-up dictionaries --------------------------------------------------------------------------

LOOKS = tuple("abcd")
PLAN = plan_of([look(name, [{"text": name.upper() * 4}]) for name in LOOKS])
CELL = Sight(1, False, False, "f")
CURSOR = Sight(0, True, False, "f")


def covering(*faults, good="....", alone=None):
    """Return the covering for faults whose looks are drawn: `x` cells, `c` cursor, `.` nothing."""
    words = {".": AS_WANTED, "x": CELL, "c": CURSOR}
    shown = [tuple(words[each] for each in drawn) for drawn in (good, *faults)]
    others = [tuple(words[each] for each in drawn) for drawn in (good, *(alone or faults))]
    played = [BothWays(*pair) for pair in zip(shown, others, strict=True)]
    named = {str(number): each for number, each in enumerate(played[1:])}
    dictionary = FaultDictionary(LOOKS, played[0], named, frozenset())
    return covering_of(dictionary, PLAN, CHARACTER_S)


def test_a_look_is_spared_by_two_before_it_that_show_the_same():
    assert covering("xx..", "..xx", "xxx.") == {}
    assert covering("xxx.", "xx.x") == {"c": ("a",), "d": ("a",)}
    assert covering("x.xx", ".xxx", "xx.x") in (
        {"d": ("a", "b")},
        {"d": ("a", "c")},
        {"d": ("b", "c")},
    )


def test_no_look_is_spared_by_what_stands_behind_it():
    assert covering(".xxx") == {"d": ("b",)} and covering("..xx") == {}


def test_a_look_that_shows_nothing_or_that_a_good_board_fails_is_asked():
    assert "d" not in covering("xxx.")
    assert "d" not in covering("xxxx", good="...x")
    assert set(covering("xxxx")) == {"c", "d"}


def test_what_depends_on_how_it_is_played_covers_nothing_and_is_covered_however_it_fails():
    assert "c" in covering("xxx.", "xx.x")
    assert "c" not in covering("x.x.", "xx.x", "..xx", alone=("....", "xx.x", "..xx"))
    assert "c" not in covering("xx..", "xx.x", alone=("xx..", "..xx"))


def test_a_cursor_seen_elsewhere_does_not_stand_for_characters_that_differ():
    assert set(covering("xxxx")) == {"c", "d"}
    assert covering("ccxx") == {"b": ("a",)}
    assert set(covering("xxcc")) == {"c", "d"}


def test_bits_of_single_cells_count_as_well():
    nothing = BothWays((AS_WANTED,) * 4, (AS_WANTED,) * 4)
    fault = BothWays((CELL,) * 4, (CELL,) * 4)
    for showing, spared_looks in ((0b0011, {"c", "d"}), (0b1100, set()), (0b1001, {"c"})):
        stuck = frozenset([Evident(showing, showing)])
        dictionary = FaultDictionary(LOOKS, nothing, {"f": fault}, stuck)
        found = covering_of(dictionary, PLAN, CHARACTER_S)
        assert not spared_looks.difference(found) and len(found) <= 2
        assert not {"c", "d"}.difference(spared_looks).intersection(found)


def test_another_kind_of_board_is_covered_by_its_own_faults():
    other = changed(SINGLE, {"down": "stay"}, display={"rows": 12, "columns": 40})
    plan = acceptance(other)
    dictionary = fault_dictionary(other, plan)
    found = covering_of(dictionary, plan, CHARACTER_S)
    assert list(too_seldom(dictionary, found)) == [] and len(found) >= 5
    for ways in dictionary.faults.values():
        shown = [(fails(way, ""),) for way in ways]
        told = [("", shown[0][0] | shown[1][0], shown[0][0] & shown[1][0])]
        assert list(acquitted(told, found, dictionary.looks)) == []
