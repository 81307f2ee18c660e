"""The characters of a look that are enlarged: those that stand on its screen."""

import dataclasses

import pytest

from helpers.scripts import ECMA, SINGLE
from termprobe import yamlfile
from termprobe.board.faults import dots
from termprobe.board.generator import misdrawn_codes
from termprobe.board.wiring import wire
from termprobe.errors import FileError
from termprobe.plan.compile import compile_plan
from termprobe.plan.document import step_document
from termprobe.plan.model import Look
from termprobe.profile.load import load
from termprobe.script import load as scripts

CLUB = load("club-16x64")

SCRIPT = """\
id: s
title: s
stages:
  - id: a
    title: a
    steps:
      - {id: seen, kind: look, title: t, question: q, send: [{text: FIG}], enlarged: %s}
"""


def look(profile, enlarged):
    plan = compile_plan(profile, scripts.parse(SCRIPT % enlarged, "s.yaml"))
    return plan.step("seen")


def test_what_stands_on_the_screen_is_drawn_as_a_good_board_draws_it():
    found = look(SINGLE, "GHF")
    assert [one.character for one in found.enlarged] == ["G", "F"]
    assert found.enlarged[1].rows[:4] == ("#####", "#....", "#....", "####.")
    assert found.asks_dots


def test_a_profile_that_does_not_tell_of_dots_enlarges_nothing_and_its_steps_stay_as_they_were():
    found = look(ECMA, "GF")
    assert found.enlarged == () and not found.asks_dots
    assert "enlarged" not in step_document(found)
    assert "misdrawn" not in step_document(found)["expected"]
    assert "enlarged" in step_document(look(SINGLE, "GF"))


@pytest.mark.parametrize("enlarged", ["AA", "ABCDEFGHI", '""'])
def test_so_many_different_characters_may_be_enlarged(enlarged):
    with pytest.raises(FileError, match="enlarged of seen must be 1 to 8 different characters"):
        scripts.parse(SCRIPT % enlarged, "s.yaml")


def test_only_a_look_enlarges():
    text = SCRIPT.replace("kind: look", "kind: ask") % "A"
    with pytest.raises(FileError, match="enlarged of seen must go with kind look, not ask"):
        scripts.parse(text, "s.yaml")


def faults_of(profile):
    """Return the characters that each fault of dots changes, where it changes any that print."""
    found = {}
    for one in dots.faults(profile):
        wiring = wire(profile)
        one.apply(wiring)
        changed = misdrawn_codes(profile.display.dots, wiring).keys() & set(range(0x21, 0x7F))
        if changed:
            found[one.name] = set(map(chr, changed))
    return found


@pytest.mark.parametrize("script_id", ["acceptance", "quick"])
@pytest.mark.parametrize("profile", [SINGLE, CLUB], ids=lambda profile: str(profile.id))
def test_each_fault_of_lines_changes_a_character_that_the_look_enlarges(profile, script_id):
    plan = compile_plan(profile, scripts.load(script_id))
    looks = [step for step in plan.steps if isinstance(step, Look) and step.asks_dots]
    assert looks
    for step in looks:
        shown = {one.character for one in step.enlarged}
        blind = [name for name, changed in faults_of(profile).items() if not changed & shown]
        assert not blind, step.id


def test_the_enlarged_characters_are_part_of_what_is_asked():
    """A step that enlarges others is another step."""
    one = look(SINGLE, "GF")
    assert one.hash != look(SINGLE, "G").hash
    assert dataclasses.replace(one, enlarged=()).hash == one.hash


def test_the_shipped_sets_stand_in_a_folder_of_their_own():
    assert yamlfile.shipped_ids("profiles/characters") == ["5x7", "7x9"]
