"""Checks of the codings of commands: their form, their slots, and that they differ."""

import itertools
import re

from termprobe.findings import UNKNOWN, Findings, called, nearest, quoted, try_check
from termprobe.profile.alike import Item, Slot, are_alike, items_of
from termprobe.profile.model import Command, Profile
from termprobe.profile.vocabulary import VOCABULARY
from termprobe.yamlvalues import Template

MAX_CODING = 32
"""A command is no longer than this, slots counted as one."""
MAX_ALIKE = 300
"""No more codings than this start with the same code."""
_SEQUENCE = re.compile(rb"\x1b\[[<-?]?(?:[0-9]*|\xff)(?:;(?:[0-9]*|\xff))*[ -/]*[@-~]")
"""A control sequence, with FFh for each slot."""

Codings = dict[Item, list[tuple[str, list[Item]]]]
"""First item of a coding: the names of commands whose codings start with it, and their items."""


def check_codings(profile: Profile, command: Command, codings: Codings, findings: Findings) -> None:
    """Check each coding of a command. `codings`, of the commands before, gets them added."""
    templates = [command.bytes]
    if command.also is not UNKNOWN:
        templates += command.also
    for template in templates:
        try_check(_check_coding, profile, command, template, findings)
        try_check(_check_form, profile, command, template, codings, findings)


def _check_coding(
    profile: Profile, command: Command, template: Template, findings: Findings
) -> None:
    name = called(command, "the command")
    if not template or len(template) > MAX_CODING or len(template.literal) > MAX_CODING:
        findings.add(template, f"bytes of {name} must be 1 to {MAX_CODING}")
        return
    try_check(_check_start, profile, name, template, findings)
    slots = VOCABULARY[command.action].slots
    trouble = slot_trouble(name, template, slots) or _slots_trouble(profile, name, template, slots)
    if trouble:
        findings.add(template, trouble)


def _check_start(profile: Profile, name: str, template: Template, findings: Findings) -> None:
    """Note a coding that could not be told from text, or cannot travel."""
    printing, bits, start = profile.display.printing, profile.link.data_bits, template[0]
    if isinstance(start, str):
        findings.add(template, f"bytes of {name} must start with a code, not a slot")
    elif printing.first <= start[0] <= printing.last:
        must = f"bytes of {name} must not start with a printable code"
        findings.add(template, f"{must}, {start[0]:02X}h")
    elif max(template.literal) >= 1 << bits:
        findings.add(template, f"bytes of {name} must fit in {bits} data bits")


def slot_trouble(name: str, template: Template, slots: tuple[str, ...]) -> str:
    """Return what is wrong with the first slot that does not belong, or stands twice; or nothing.

    `slots` are those that may stand in the template of the command `name`.
    """
    found = template.slots
    for index, slot in enumerate(found):
        if slot not in slots:
            allowed = " or ".join(slots) or "left out"
            near = nearest(slot, slots)
            return f"a slot of {name} must be {allowed}, not {quoted(slot)}{near}"
        if slot in found[:index]:
            return f"each slot of {name} must stand once, not {slot} again"
    return ""


def _slots_trouble(profile: Profile, name: str, template: Template, slots: tuple[str, ...]) -> str:
    """Return what is wrong with the slots together, or nothing.

    A cell must be fully given, and the coding of coordinates be known and let them be told apart.
    """
    found = template.slots
    missing = [slot for slot in slots if slot not in found and slot != "count"]
    if missing:
        return f"bytes of {name} must have the slot {missing[0]}"
    if {"row", "column"} & set(found) and not explains_slots(profile):
        must = 'must be explained: the profile must have the key "coordinates"'
        return f"a slot of {name} {must}"
    if _kind_of_slots(profile) is Slot.DIGITS and _digits_run_on(template):
        return f"a slot of {name} must be followed by something other than a digit"
    return ""


def explains_slots(profile: Profile) -> bool:
    """Tell whether `profile` says, rightly or wrongly, how coordinates travel."""
    return profile.coordinates is not None or "coordinates" in profile.place.fields


def _digits_run_on(template: Template) -> bool:
    """Tell whether the digits of a slot would have no end."""
    pairs = itertools.pairwise((*template, b""))
    return any(isinstance(part, str) and not _ends_digits(behind) for part, behind in pairs)


def _ends_digits(part: bytes | str) -> bool:
    """Tell whether `part`, empty at the end of a coding, begins with a code other than a digit."""
    return isinstance(part, bytes) and part != b"" and not part[:1].isdigit()


def _check_form(
    profile: Profile, command: Command, template: Template, codings: Codings, findings: Findings
) -> None:
    """Note a coding that begins with ESC "[" without the form of ECMA-48 5.4.

    Check that any other differs from those before.
    """
    name = called(command, "the command")
    is_sequence = _is_sequence(profile, template)
    if not is_sequence or _SEQUENCE.fullmatch(template.with_slots_as(b"\xff")):
        _check_difference(profile, name, template, codings, findings)
    elif not _digits_run_on(template):
        form = 'ESC "[", numbers or slots with ";" between, and a final letter'
        findings.add(template, f"bytes of {name} must be one control sequence: {form}")


def _is_sequence(profile: Profile, template: Template) -> bool:
    return profile.grammar == "ecma48" and template.begins_with(b"\x1b[")


def check_sequence_numbers(profile: Profile, findings: Findings) -> None:
    """Check that slots of control sequences, decimal by ECMA-48 5.4.1, are so in the profile."""
    numbered = [
        command
        for command in profile.commands
        for template in (command.bytes, *command.also)
        if _is_sequence(profile, template) and template.slots
    ]
    coordinates = profile.coordinates
    if numbered and coordinates is not None and coordinates.coding != "decimal":
        must = f"coding must be decimal, for the control sequence of {numbered[0].name}"
        findings.add(coordinates.place.of("coding"), must)


def _kind_of_slots(profile: Profile) -> Slot:
    """Return what stands in the slots of a coding that is no control sequence."""
    if profile.coordinates is None or profile.coordinates.coding == "decimal":
        return Slot.DIGITS
    return Slot.ONE_BYTE


def _check_difference(
    profile: Profile, name: str, template: Template, codings: Codings, findings: Findings
) -> None:
    """Note a coding that begins, or is begun by, one of a command before it."""
    kind = Slot.DIGITS
    if not _is_sequence(profile, template):
        kind = _kind_of_slots(profile)
    items = items_of(template, kind)[:MAX_CODING]
    if not items:
        return
    before = codings.setdefault(items[0], [])
    other = next((other for other, others in before if are_alike(items, others)), None)
    if len(before) > MAX_ALIKE:
        findings.add(template, f"at most {MAX_ALIKE} codings must start with the same code")
    elif other is not None:
        must = f"bytes of {name} must differ, from the start, from those of {other}"
        findings.add(template, must)
    else:
        before.append((name, items))
