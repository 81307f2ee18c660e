"""Mutants of YAML: one value or item a mutant, all else as it was written."""

import difflib
import pathlib

import pytest
import yaml

from helpers.paths import ROOT
from mutation.mutants import drawn
from mutation.yaml_mutants import mutants, other_codes, other_values, steps

TEXT = """# A comment stays.
link:
  parity: even  # as does this
  speeds: [300, 9600]
commands:
  - name: left
    edge: stay
    bytes: BS
  - {name: tab, low: -0.4}

needs: [rails]
"""
SHIPPED = sorted(path for kind in ("profiles", "scripts") for path in (ROOT / kind).glob("*.yaml"))


def change(mutant):
    """Return the lines that the mutant takes out and puts in."""
    lines = difflib.ndiff(TEXT.split("\n"), mutant.of(TEXT).split("\n"))
    return [line[0] + line[2:].strip() for line in lines if line[0] in "-+"]


def test_each_mutant_changes_one_thing_and_says_where():
    found = {(mutant.location, *change(mutant)) for mutant in mutants(TEXT)}
    assert found == {
        ("link.parity", "-parity: even  # as does this", "+parity: odd  # as does this"),
        ("link.speeds.0", "-speeds: [300, 9600]", "+speeds: [9600]"),
        ("link.speeds.0", "-speeds: [300, 9600]", "+speeds: [301, 9600]"),
        ("link.speeds.0", "-speeds: [300, 9600]", "+speeds: [299, 9600]"),
        ("link.speeds.1", "-speeds: [300, 9600]", "+speeds: [300]"),
        ("link.speeds.1", "-speeds: [300, 9600]", "+speeds: [300, 9601]"),
        ("link.speeds.1", "-speeds: [300, 9600]", "+speeds: [300, 9599]"),
        ("commands.left", "-- name: left", "-edge: stay", "-bytes: BS"),
        ("commands.left.edge", "-edge: stay", "+edge: scroll"),
        ("commands.left.bytes", "-bytes: BS", "+bytes: 'HT'"),
        ("commands.tab", "-- {name: tab, low: -0.4}", "-"),
        ("commands.tab.low", "-- {name: tab, low: -0.4}", "+- {name: tab, low: -0.3}"),
        ("commands.tab.low", "-- {name: tab, low: -0.4}", "+- {name: tab, low: -0.5}"),
        ("needs.0", "-needs: [rails]", "+needs: []"),
    }


def test_a_number_goes_up_and_down_by_its_last_digit():
    assert steps("20h") == ["21h", "1Fh"] and steps("152064") == ["152065", "152063"]
    assert steps("4.75") == ["4.76", "4.74"] and steps("-11.4") == ["-11.3", "-11.5"]
    assert steps("half") == steps("5 V") == []


def test_codes_change_in_their_last_character_or_a_control_code():
    assert other_codes('ESC "[2J"') == ['ESC "[2K"', 'RS "[2J"']
    assert other_codes('"!"') == ['"#"'] and other_codes("HT") == ["LF"]
    assert other_values("code", '"\'"') == ["'\"(\"'"]


def test_only_words_of_their_key_are_exchanged():
    assert other_values("parity", "none") == ["even"] and other_values("title", "none") == []
    assert other_values("edge", "keep") == ["clamp"] and other_values("diodes", "yes") == ["no"]


@pytest.mark.parametrize("path", SHIPPED, ids=lambda path: path.stem)
def test_mutants_of_the_shipped_files_are_yaml_that_says_something_else(path: pathlib.Path):
    text = path.read_text(encoding="utf-8")
    before = yaml.load(text, yaml.CSafeLoader)
    for mutant in drawn(mutants(text), 20, 1):
        assert yaml.load(mutant.of(text), yaml.CSafeLoader) != before, mutant.location
