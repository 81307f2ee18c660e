"""The commands of a profile become the tables of the decoder."""

import re

from termprobe.notation import show_template
from termprobe.profile.model import Command, Coordinates, Profile
from termprobe.terminal.decoded import Decoded
from termprobe.terminal.tables import CodeNode, Sequence, Tables
from termprobe.yamlvalues import Template

ESC = 0x1B
_SLOT = b"\xff"
_CODING = re.compile(
    rb"\x1b\[(?P<private>[<-?]?)(?P<parameters>(?:[0-9]*|\xff)(?:;(?:[0-9]*|\xff))*)"
    rb"(?P<intermediate>[ -/]*)(?P<final>[@-~])"
)
"""The coding of a control sequence, with _SLOT for each slot."""


def compile_tables(profile: Profile) -> Tables:
    """Return the Tables of `profile`."""
    is_ecma48 = profile.grammar == "ecma48"
    tables = Tables(is_ecma48, numbering(profile), CodeNode(), {})
    if is_ecma48:
        tables.root.after[ESC] = CodeNode()
    for command in profile.commands:
        for template in (command.bytes, *command.also):
            if is_ecma48 and template.begins_with(b"\x1b["):
                _add_sequence(tables.sequences, template, command)
            else:
                _add_codes(tables.root, template, command)
    return tables


def numbering(profile: Profile) -> Coordinates:
    """Return how numbers travel; without Coordinates they are decimal digits, counted from 1."""
    return profile.coordinates or Coordinates("decimal", first=1)


def _add_codes(node: CodeNode, template: Template, command: Command) -> None:
    for part in template:
        if isinstance(part, str):
            node.number = node.number or CodeNode()
            node = node.number
        else:
            for code in part:
                node = node.after.setdefault(code, CodeNode())
    node.decoded = node.decoded or Decoded(command)
    node.slots = template.slots


def _add_sequence(
    sequences: dict[bytes, tuple[Sequence, ...]], template: Template, command: Command
) -> None:
    """Note a coding such as ESC "[" row ";" column "H"."""
    parts = _CODING.fullmatch(template.with_slots_as(_SLOT))
    if parts is None:
        raise ValueError(
            f"{command.name} must be coded as one control sequence (ECMA-48 5.4), "
            f"not {show_template(template)}"
        )
    parameters = _parameters(parts["parameters"].split(b";"), template.slots)
    key = parts["private"] + parts["intermediate"] + parts["final"]
    entries = [*sequences.get(key, ()), Sequence(parameters, command)]
    entries.sort(key=_slots_of)
    sequences[key] = tuple(entries)


def _parameters(fields: list[bytes], slots: tuple[str, ...]) -> tuple[int | str, ...]:
    """Return the number in each field, or the next of the slots."""
    waiting = iter(slots)
    found: list[int | str] = []
    for field in fields:
        if field == _SLOT:
            found.append(next(waiting))
        else:
            found.append(int(field or b"0"))
    return tuple(found)


def _slots_of(entry: Sequence) -> int:
    """Return how many parameters of a sequence are slots."""
    return sum(isinstance(wanted, str) for wanted in entry.parameters)
