"""The catalogue of faults: their names and titles, and how families are found."""

import dataclasses
import importlib
import re

import pytest

from helpers.boards import PROFILE
from termprobe.board.board import Board
from termprobe.board.faults.catalogue import (
    blocks,
    catalogue,
    families,
    families_in,
    fault,
    keyboard_catalogue,
    keyboard_fault,
)
from termprobe.errors import UsageError

CATALOGUE = catalogue(PROFILE)
BUS_KINDS = "stuck|swapped|bridged"
FORMS = (
    rf"(receiver|bank-[01]|transmitter)-data/({BUS_KINDS})/[0-6](-[0-6])?(/(0|1|low|high))?",
    rf"(glyph-address|keyboard-code)/({BUS_KINDS})/[0-6](-[0-6])?(/(0|1|low|high))?",
    rf"(ram|bank-0|bank-1)-address/({BUS_KINDS})/\d\d?(-\d\d?)?(/(0|1|low|high))?",
    r"bank-select/stuck/0/[01]",
    r"row-counter/(stuck/[0-4]/[01]|(carry|borrow)-lost/4)",
    r"column-counter/(stuck/[0-6]/[01]|(carry|borrow)-lost/[4-6])",
    r"decoder/(dead|also-written)/[a-z-]+",
    r"decoder/(acts-as|swapped)/[a-z-]+-[a-z-]+",
    r"(margin|scroll|clear|home)/[a-z0-9-]+",
    r"address/(offset/[+-]1|[a-z-]+)",
    r"echo-gate/stuck-(open|closed)",
    r"parity/(inverted|fixed/[01])",
    r"baud/ratio/[0-9.]+",
    r"key-matrix/.+",
    r"row-scan/(stuck|swapped|bridged)/[0-2](-[0-2])?(/(0|1|low|high))?",
    r"dot-column/(missing/[0-4]|stuck/[0-4]/1)",
    r"dot-column/(swapped|bridged)/[0-4]-[0-4](/(low|high))?",
    r"shift-register/stuck/[0-5]/[01]",
    r"dots/half|blanking/(dead|stuck)|cursor/(dead|everywhere)",
)
"""WHERE/KIND/LINES[/VALUE], block by block."""


def test_every_name_has_the_form_of_its_block_and_every_fault_can_be_found_by_it():
    for name, found in CATALOGUE.items():
        assert any(re.fullmatch(form, name) for form in FORMS), name
        assert (found.name, found.block) == (name, name.split("/")[0])


@pytest.mark.parametrize("where", blocks())
def test_a_fault_is_found_by_name_as_the_catalogue_has_it(where):
    names = [name for name in CATALOGUE if name.startswith(where + "/")][:3]
    for name in names:
        found = fault(PROFILE, name)
        assert (found.name, found.title) == (name, CATALOGUE[name].title)


def test_titles_are_plain_words_and_each_stands_once():
    titles = [found.title for found in CATALOGUE.values()]
    assert len(set(titles)) == len(titles)
    assert CATALOGUE["bank-1-data/stuck/0/1"].title == "data line 0 of RAM bank 1 is stuck at 1"
    assert CATALOGUE["decoder/acts-as/bell-return"].title == "the command bell is taken for return"
    assert (
        CATALOGUE["ram-address/bridged/0-7/high"].title
        == "address lines 0 and 7 of both RAM banks are shorted (wired-OR)"
    )


def test_the_catalogue_holds_only_what_the_profile_has():
    assert not any(name.startswith("handshake-gate") for name in CATALOGUE)
    link = dataclasses.replace(PROFILE.link, parity="none", handshake="rts-cts")
    circuit = dataclasses.replace(PROFILE.circuit, echo_option="")
    names = catalogue(dataclasses.replace(PROFILE, link=link, circuit=circuit))
    assert "handshake-gate/ignored" in names and "echo-gate/stuck-open" not in names
    assert not any(name.startswith("parity") for name in names)


@pytest.mark.parametrize(
    "name, words",
    [
        ("bank-1-data/stcuk/3/0", 'nearest is "bank-1-data/stuck/3/0"'),
        ("decoder/dead/claer", 'nearest is "decoder/dead/clear"'),
        ("nonsense\x1b", r'not "nonsense\\x1b"'),
        ("cell/stuck/24-0-0/1", "row 0 to 23"),
        ("cell/stuck/0-80-0/1", "column 0 to 79"),
        ("cell/stuck/0-0-7/1", "bit 0 to 6"),
        ("cell/stuck/0-0/1", "ROW-COLUMN-BIT"),
        ("baud/ratio/0", "from 0.01 to 100"),
        ("baud/ratio/x", "a number"),
        ("", 'not ""'),
    ],
)
def test_a_name_that_is_none_is_refused_with_what_it_must_be(name, words):
    with pytest.raises(UsageError, match=words):
        Board(PROFILE, [name])


def test_the_faults_of_a_profile_are_made_once_and_no_list_is_anybody_else_s():
    known = catalogue(PROFILE)
    dead = known.pop("scroll/dead")
    assert fault(PROFILE, dead.name) is catalogue(PROFILE)[dead.name] is dead
    other = catalogue(dataclasses.replace(PROFILE))
    assert other.keys() == CATALOGUE.keys() and other[dead.name] is not dead


def test_no_two_families_have_a_block_in_common_and_none_has_a_fault_of_another_block():
    assert len(set(blocks())) == len(blocks())
    for family in families():
        assert {found.block for found in family.faults(PROFILE)} <= set(family.blocks)


def test_the_faults_of_a_keyboard_alone_are_those_of_its_families():
    of_keyboard = {block for one in families() if one.of_keyboard for block in one.blocks}
    assert {found.block for found in keyboard_catalogue(PROFILE).values()} == of_keyboard


@pytest.mark.parametrize("name", ["scroll/dead", "cell/stuck/0-0-0/1", "nonsense"])
def test_a_keyboard_alone_has_no_faults_of_a_board(name):
    with pytest.raises(UsageError, match="must be one that"):
        keyboard_fault(PROFILE, name)


FAN = """
from termprobe.board.faults.model import make

BLOCKS = ("fan",)


def faults(profile):
    yield make("fan/dead", "the fan stands still", lambda wiring: None)
"""


@pytest.fixture
def folder(tmp_path, monkeypatch):
    """Return a package for families, and a function that imports it."""
    package = tmp_path / f"room_{tmp_path.name}"
    package.mkdir()
    (package / "__init__.py").touch()
    monkeypatch.syspath_prepend(str(tmp_path))
    return package


def test_a_family_is_added_by_adding_its_file(folder):
    (folder / "model.py").touch()
    (folder / "heat.py").write_text(FAN.replace("fan", "heat"))
    (folder / "fan.py").write_text(FAN)
    found = families_in(importlib.import_module(folder.name))
    assert [family.blocks for family in found] == [("fan",), ("heat",)]
    assert [one.title for one in found[0].faults(PROFILE)] == ["the fan stands still"]


@pytest.mark.parametrize(
    "part, line", [("BLOCKS", 'BLOCKS = ("fan",)'), ("faults", "def faults(profile):")]
)
def test_a_module_that_lacks_a_part_is_refused_by_name(folder, part, line):
    (folder / "fan.py").write_text(FAN.replace(line, line.replace(part, "other")))
    with pytest.raises(TypeError, match=rf"fan: a family .* has no {part}"):
        families_in(importlib.import_module(folder.name))
