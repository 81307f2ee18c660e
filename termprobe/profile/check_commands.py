"""Checks of a profile's commands: their words, what they need, and the ones that `fresh` names."""

import re

from termprobe.findings import Findings, called, forget, nearest, quoted, try_check
from termprobe.profile.check_codings import (
    Codings,
    check_codings,
    check_sequence_numbers,
    explains_slots,
    slot_trouble,
)
from termprobe.profile.model import Command, Profile
from termprobe.profile.vocabulary import PARAMETERS, PROGRAMMED, REPLY_SLOTS, VOCABULARY
from termprobe.yamlvalues import Template, Text


def check_commands(profile: Profile, findings: Findings) -> None:
    """Note everything that is wrong with the commands of `profile`, and with `fresh`."""
    names: set[str] = set()
    codings: Codings = {}
    for command in profile.commands:
        try_check(_check_name, command, names, findings)
        for part in (_check_action, _check_edge, _check_reply, _check_fill):
            try_check(part, command, findings)
        try_check(_check_reply_slots, profile, command, findings)
        try_check(check_codings, profile, command, codings, findings)
    try_check(check_sequence_numbers, profile, findings)
    try_check(_check_fresh, profile, findings)


def _check_name(command: Command, names: set[str], findings: Findings) -> None:
    name = command.name
    if not re.fullmatch(r"[a-z][a-z0-9]*(-[a-z0-9]+)*", str(name)):  # str() stops at UNKNOWN
        must = "a command's name must be small letters and digits joined by -"
        findings.add(name, f"{must}, not {quoted(name)}")
    if name in names:
        findings.add(name, f"each command must stand once, not {quoted(name)} again")
    names.add(name)


def _check_action(command: Command, findings: Findings) -> None:
    action = command.action
    if action not in VOCABULARY:
        must = f"action must be one of {', '.join(VOCABULARY)}"
        findings.add(action, f"{must}, not {quoted(action)}{nearest(action, VOCABULARY)}")
        forget(command, "action")


def _check_edge(command: Command, findings: Findings) -> None:
    name, edge = called(command, "the command"), command.edge
    edges = VOCABULARY[command.action].edges
    allowed = ", ".join(edges)
    if edge is None and edges:
        findings.add(command.place, f'{name} must have the key "edge", one of {allowed}')
    if edge is None or edge in edges:
        return
    must = f"edge of {name} must be left out"
    if edges:
        must = f"edge of {name} must be one of {allowed}"
    findings.add(edge, f"{must}, not {quoted(edge)}{nearest(edge, edges)}")


def _check_reply(command: Command, findings: Findings) -> None:
    name, action, reply = called(command, "the command"), command.action, command.reply
    if action == "reply" and reply is None:
        findings.add(command.place, f'{name} must have the key "reply": what comes back')
    elif action != "reply" and reply is not None:
        must = f"reply of {name} must be left out: its action is {action}"
        findings.add(command.place.of("reply"), must)
    elif reply is not None:
        if not reply:
            findings.add(reply, f"reply of {name} must not be empty")
        trouble = slot_trouble(name, reply, REPLY_SLOTS) or _form_trouble(name, reply)
        if trouble:
            findings.add(reply, trouble)


def _form_trouble(name: str, reply: Template) -> str:
    """Return what is wrong with a reply that is judged by its form, or nothing."""
    if PROGRAMMED in reply.slots and reply[-2:-1] != (PROGRAMMED,):
        return f"reply of {name} must have bytes behind {PROGRAMMED}, and no slot there"
    if PROGRAMMED in reply.slots and len(reply.slots) > 1:
        return f"reply of {name} must have no other slot beside {PROGRAMMED}"
    is_between = len(reply) == 3 and reply[1] == PARAMETERS
    if PARAMETERS not in reply.slots or is_between:
        return ""
    return f"reply of {name} must have bytes before and behind {PARAMETERS}, and no other slot"


def _check_reply_slots(profile: Profile, command: Command, findings: Findings) -> None:
    if command.reply is None or not {"row", "column"} & set(command.reply.slots):
        return
    if not explains_slots(profile):
        name = called(command, "the command")
        must = 'must be explained: the profile must have the key "coordinates"'
        findings.add(command.reply, f"a slot of {name} {must}")


def _check_fill(command: Command, findings: Findings) -> None:
    fill = command.fill
    if fill is not None and len(fill.code) != 1:
        findings.add(fill.place.of("code"), f"code must be one byte, not {len(fill.code)}")


def _check_fresh(profile: Profile, findings: Findings) -> None:
    commands: dict[str, Command] = {command.name: command for command in profile.commands}
    if not profile.fresh:
        must = "fresh must name the commands that bring the screen into a known state"
        findings.add(profile.place.of("fresh"), must)
    for name in profile.fresh:
        try_check(_check_fresh_name, name, commands, findings)


def _check_fresh_name(name: Text, commands: dict[str, Command], findings: Findings) -> None:
    if name not in commands:
        must = "fresh must name commands of this profile"
        findings.add(name, f"{must}, not {quoted(name)}{nearest(name, commands)}")
    elif {"row", "column"} & set(commands[name].bytes.slots):
        findings.add(name, f"fresh must name commands without a row or column, not {name}")
