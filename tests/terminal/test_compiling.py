"""Commands become tables."""

import dataclasses

import pytest

from termprobe.notation import parse_template
from termprobe.profile.load import load
from termprobe.profile.model import Coordinates
from termprobe.terminal.compiling import compile_tables, numbering
from termprobe.yamlvalues import Template

SINGLE, ECMA = load("singlebyte-24x80"), load("ecma48-24x80")


def with_bytes(profile, name, text):
    """Return a profile in which the command `name` has another coding."""
    template = Template(parse_template(text))
    commands = tuple(
        dataclasses.replace(command, bytes=template) if command.name == name else command
        for command in profile.commands
    )
    return dataclasses.replace(profile, commands=commands)


def test_codes_lead_from_node_to_node():
    root = compile_tables(SINGLE).root
    behind_escape = root.after[0x1B]
    row = behind_escape.after[ord("=")].number
    assert root.after[0x07].decoded.command.name == "bell"
    assert behind_escape.decoded is None
    assert row.decoded is None and row.number.decoded.command.name == "address"
    assert row.number.slots == ("row", "column")


def test_control_sequences_stand_under_their_final_byte_those_with_most_fixed_numbers_first():
    tables = compile_tables(with_bytes(ECMA, "erase-display", 'ESC "[" count "J"'))
    parameters = [entry.parameters for entry in tables.sequences[b"J"]]
    assert parameters == [(0,), (0,), (1,), ("count",)]
    assert tables.sequences[b"H"][-1].parameters == ("row", "column")
    assert tables.root.after[0x1B].after.get(ord("[")) is None


def test_the_grammar_of_codes_has_no_control_sequences():
    tables = compile_tables(dataclasses.replace(SINGLE, commands=ECMA.commands))
    assert not tables.is_ecma48 and tables.sequences == {}
    assert ord("[") in tables.root.after[0x1B].after


def test_a_coding_that_is_no_control_sequence_is_refused():
    profile = with_bytes(ECMA, "up", 'ESC "[x" count "A"')
    with pytest.raises(ValueError, match="up must be coded as one control sequence"):
        compile_tables(profile)


def test_without_coordinates_numbers_are_digits_that_count_from_1():
    assert numbering(SINGLE) is SINGLE.coordinates
    bare = dataclasses.replace(SINGLE, coordinates=None)
    assert numbering(bare) == Coordinates("decimal", first=1)
