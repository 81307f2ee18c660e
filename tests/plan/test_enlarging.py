"""The characters of a look that are enlarged: those that stand on its screen."""

import dataclasses
import functools

import pytest

from helpers.scripts import ECMA, SINGLE
from termprobe import yamlfile
from termprobe.board.faults import dots
from termprobe.board.generator import misdrawn_codes
from termprobe.board.wiring import wire
from termprobe.errors import FileError
from termprobe.plan import enlarging
from termprobe.plan.compile import compile_plan
from termprobe.plan.document import step_document
from termprobe.plan.model import Look
from termprobe.profile.characters import art_of, character_set
from termprobe.profile.load import load
from termprobe.profile.variants import open_codes, shown_as
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


NATIONAL = SCRIPT.replace("[{text: FIG}]", "[{text: '%s'}], variants: each") % ("%s", "%s")
OPEN = open_codes().decode()


def national_look(box="7x9", position="german", enlarged=OPEN):
    """Return a look at the open places on a board that draws its characters by such a set."""
    dots = dataclasses.replace(CLUB.display.dots, characters=box)
    profile = dataclasses.replace(CLUB, display=dataclasses.replace(CLUB.display, dots=dots))
    text = NATIONAL % (OPEN.replace("\\", "\\\\"), f"'{enlarged}'")
    return compile_plan(profile, scripts.parse(text, "s.yaml")).step(f"seen-{position}")


def test_in_the_place_of_an_open_code_the_character_of_the_variant_is_enlarged_as_it_is_drawn():
    found = {one.character: one.rows for one in national_look().enlarged}
    assert "".join(found) == "#$\u00a7\u00c4\u00d6\u00dc^`\u00e4\u00f6\u00fc\u00df"
    drawn = character_set("7x9")
    assert found["\u00c4"] == art_of(drawn.national[0xC4], drawn.columns)
    assert [one.character for one in national_look(position="us").enlarged] == list(OPEN)


def test_none_is_enlarged_of_which_the_set_has_no_drawing(monkeypatch):
    whole = character_set("7x9")
    national = {code: glyph for code, glyph in whole.national.items() if code != 0xC4}
    without = dataclasses.replace(whole, national=national)
    monkeypatch.setattr(enlarging, "character_set", lambda set_id: without)
    found = [one.character for one in national_look().enlarged]
    assert len(found) == 11 and "\u00c4" not in found and "[" not in found


def test_a_look_in_each_variant_may_enlarge_as_many_as_there_are_open_codes():
    assert len(national_look(enlarged=OPEN).enlarged) == len(OPEN) == 12
    with pytest.raises(FileError, match="enlarged of seen must be 1 to 12 different characters"):
        national_look(enlarged=OPEN + "A")


def test_the_shipped_look_at_the_open_places_enlarges_each_of_them():
    plan = compile_plan(CLUB, scripts.load("acceptance"))
    for position, variant in {"us": "us", "german": "german", "swedish": "swedish-names"}.items():
        shown = [one.character for one in plan.step(f"open-codes-{position}").enlarged]
        assert shown == list(shown_as(OPEN, variant))


@pytest.mark.parametrize("enlarged", ["AA", "ABCDEFGHI", '""'])
def test_so_many_different_characters_may_be_enlarged(enlarged):
    with pytest.raises(FileError, match="enlarged of seen must be 1 to 8 different characters"):
        scripts.parse(SCRIPT % enlarged, "s.yaml")


def test_only_a_look_enlarges():
    text = SCRIPT.replace("kind: look", "kind: ask") % "A"
    with pytest.raises(FileError, match="enlarged of seen must go with kind look, not ask"):
        scripts.parse(text, "s.yaml")


@functools.cache
def faults_of(profile_id, variant):
    """Return the characters that each fault of dots changes, where it changes any that print."""
    profile = load(profile_id)
    found = {}
    for one in dots.faults(profile):
        wiring = wire(profile)
        one.apply(wiring)
        odd = misdrawn_codes(profile.display.dots, wiring, variant)
        changed = {odd[code][0] for code in odd if code in range(0x21, 0x7F)}
        if changed:
            found[one.name] = changed
    return found


@pytest.mark.parametrize("script_id", ["acceptance", "quick"])
@pytest.mark.parametrize("profile", [SINGLE, CLUB], ids=lambda profile: str(profile.id))
def test_each_fault_of_lines_changes_a_character_that_the_look_enlarges(profile, script_id):
    plan = compile_plan(profile, scripts.load(script_id))
    looks = [step for step in plan.steps if isinstance(step, Look) and step.asks_dots]
    assert looks
    for step in looks:
        shown = {one.character for one in step.enlarged}
        faults = faults_of(str(profile.id), step.expected.variant)
        blind = [name for name, changed in faults.items() if not changed & shown]
        assert not blind, step.id


def test_the_enlarged_characters_are_part_of_what_is_asked():
    """A step that enlarges others is another step."""
    one = look(SINGLE, "GF")
    assert one.hash != look(SINGLE, "G").hash
    assert dataclasses.replace(one, enlarged=()).hash == one.hash


def test_the_shipped_sets_stand_in_a_folder_of_their_own():
    assert yamlfile.shipped_ids("profiles/characters") == ["5x7", "7x9"]
