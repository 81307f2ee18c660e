"""Checks of a profile's commands: their words, their slots, and that no two codings can be taken for one another."""

import re

from termprobe.findings import UNKNOWN, called, forget, nearest, quoted, try_check
from termprobe.profile.vocabulary import VOCABULARY

MAX_CODING = 32
"""A command is no longer than this, slots counted as one."""
MAX_ALIKE = 300
_SEQUENCE = re.compile(rb"\x1b\[[<-?]?(?:[0-9]*|\xff)(?:;(?:[0-9]*|\xff))*[ -/]*[@-~]")
"""A control sequence, with FFh for each slot."""
_ONE_BYTE, _DIGITS = "one byte", "digits"


def check_commands(profile, findings):
    """Note everything that is wrong with the commands of `profile`, and with `fresh`, which names some of them."""
    names, codings = set(), {}
    for command in profile.commands:
        try_check(_check_name, command, names, findings)
        for part in (_check_action, _check_edge, _check_reply, _check_fill):
            try_check(part, command, findings)
        try_check(_check_reply_slots, profile, command, findings)
        try_check(_check_codings, profile, command, codings, findings)
    try_check(_check_sequence_numbers, profile, findings)
    try_check(_check_fresh, profile, findings)


def _check_name(command, names, findings):
    if not re.fullmatch(r"[a-z][a-z0-9]*(-[a-z0-9]+)*", str(command.name)):
        findings.add(
            command.name,
            f"a command's name must be small letters and digits joined by -, not {quoted(command.name)}",
        )
    if command.name in names:
        findings.add(
            command.name, f"each command must stand once, not {quoted(command.name)} again"
        )
    names.add(command.name)


def _check_action(command, findings):
    if command.action not in VOCABULARY:
        findings.add(
            command.action,
            f"action must be one of {', '.join(VOCABULARY)}, "
            f"not {quoted(command.action)}{nearest(command.action, VOCABULARY)}",
        )
        forget(command, "action")


def _check_edge(command, findings):
    name, edges = called(command, "the command"), VOCABULARY[command.action].edges
    if command.edge is None and edges:
        findings.add(command.place, f'{name} must have the key "edge", one of {", ".join(edges)}')
    elif command.edge is not None and command.edge not in edges:
        allowed = f"be one of {', '.join(edges)}" if edges else "be left out"
        findings.add(
            command.edge,
            f"edge of {name} must {allowed}, not {quoted(command.edge)}{nearest(command.edge, edges)}",
        )


def _check_reply(command, findings):
    name = called(command, "the command")
    if command.action == "reply" and command.reply is None:
        findings.add(command.place, f'{name} must have the key "reply": what comes back')
    elif command.action != "reply" and command.reply is not None:
        findings.add(
            command.place.of("reply"),
            f"reply of {name} must be left out: its action is {command.action}",
        )
    elif command.reply is not None:
        if not command.reply:
            findings.add(command.reply, f"reply of {name} must not be empty")
        _check_slot_words(name, command.reply, ("row", "column"), findings)


def _check_reply_slots(profile, command, findings):
    slots = [part for part in command.reply or () if isinstance(part, str)]
    if slots and profile.coordinates is None and "coordinates" not in profile.place.fields:
        findings.add(
            command.reply,
            f"a slot of {called(command, 'the command')} must be explained: "
            'the profile must have the key "coordinates"',
        )


def _check_fill(command, findings):
    if command.fill is not None and len(command.fill.code) != 1:
        findings.add(
            command.fill.place.of("code"), f"code must be one byte, not {len(command.fill.code)}"
        )


def _check_codings(profile, command, codings, findings):
    """Check each coding of a command. `codings`, those of the commands before by their first code, gets them added."""
    name = called(command, "the command")
    slots = UNKNOWN if command.action is UNKNOWN else VOCABULARY[command.action].slots
    also = () if command.also is UNKNOWN else command.also
    for coding in (command.bytes, *also):
        try_check(_check_coding, profile, name, slots, coding, findings)
        try_check(_check_form, profile, name, coding, codings, findings)


def _check_coding(profile, name, slots, coding, findings):
    if not coding or len(coding) > MAX_CODING or len(b"".join(_literal(coding))) > MAX_CODING:
        findings.add(coding, f"bytes of {name} must be 1 to {MAX_CODING}")
    else:
        try_check(_check_start, profile, name, coding, findings)
        if _check_slot_words(name, coding, slots, findings):
            _check_slot_values(profile, name, coding, slots, findings)


def _literal(coding):
    return [part for part in coding if isinstance(part, bytes)]


def _check_slot_words(name, coding, slots, findings):
    """Note the first slot that does not belong, or stands twice; return whether there is none."""
    found = [part for part in coding if isinstance(part, str)]
    for index, slot in enumerate(found):
        if slot not in slots:
            allowed = " or ".join(slots) or "left out"
            findings.add(
                coding,
                f"a slot of {name} must be {allowed}, not {quoted(slot)}{nearest(slot, slots)}",
            )
            return False
        if slot in found[:index]:
            findings.add(coding, f"each slot of {name} must stand once, not {slot} again")
            return False
    return True


def _check_start(profile, name, coding, findings):
    """Note a coding that could not be told from text, or cannot travel."""
    printing = profile.display.printing
    if isinstance(coding[0], str):
        findings.add(coding, f"bytes of {name} must start with a code, not a slot")
    elif printing.first <= coding[0][0] <= printing.last:
        findings.add(
            coding, f"bytes of {name} must not start with a printable code, {coding[0][0]:02X}h"
        )
    elif max(b"".join(_literal(coding))) >= 1 << profile.link.data_bits:
        findings.add(coding, f"bytes of {name} must fit in {profile.link.data_bits} data bits")


def _check_slot_values(profile, name, coding, slots, findings):
    """Check that a place is fully given, and that the coding of coordinates is known and lets them be told apart."""
    found = {part for part in coding if isinstance(part, str)}
    missing = [slot for slot in slots if slot not in found and slot != "count"]
    if missing:
        findings.add(coding, f"bytes of {name} must have the slot {missing[0]}")
    elif (
        found & {"row", "column"}
        and profile.coordinates is None
        and "coordinates" not in profile.place.fields
    ):
        findings.add(
            coding,
            f'a slot of {name} must be explained: the profile must have the key "coordinates"',
        )
    elif _coordinate_kind(profile) == _DIGITS and _digits_run_on(coding):
        findings.add(coding, f"a slot of {name} must be followed by something other than a digit")


def _digits_run_on(coding):
    """Tell whether the digits of a slot would have no end: at the end of the coding, or before a slot or a digit."""
    return any(
        isinstance(part, str)
        and (isinstance(following, str) or not following or following[:1].isdigit())
        for part, following in zip(coding, (*coding[1:], b""))
    )


def _is_sequence(profile, coding):
    return profile.grammar == "ecma48" and b"".join(_literal(coding[:1])).startswith(b"\x1b[")


def _check_form(profile, name, coding, codings, findings):
    """Note a coding that begins with ESC "[" without the form of ECMA-48 5.4; check that any other differs from those before."""
    text = b"".join(b"\xff" if isinstance(part, str) else part for part in coding)
    if not _is_sequence(profile, coding) or _SEQUENCE.fullmatch(text):
        _check_difference(profile, name, coding, codings, findings)
    elif not _digits_run_on(coding):
        findings.add(
            coding,
            f"bytes of {name} must be one control sequence: "
            'ESC "[", numbers or slots with ";" between, and a final letter',
        )


def _check_sequence_numbers(profile, findings):
    """Check that the slots of control sequences, which are decimal by ECMA-48 5.4.1, are so in the profile."""
    numbered = [
        command
        for command in profile.commands
        for coding in (command.bytes, *command.also)
        if _is_sequence(profile, coding) and any(isinstance(part, str) for part in coding)
    ]
    if numbered and _coordinate_kind(profile) != _DIGITS:
        findings.add(
            profile.coordinates.place.of("coding"),
            f"coding must be decimal, for the control sequence of {numbered[0].name}",
        )


def _coordinate_kind(profile):
    return (
        _DIGITS
        if profile.coordinates is None or profile.coordinates.coding == "decimal"
        else _ONE_BYTE
    )


def _check_difference(profile, name, coding, codings, findings):
    """Note a coding that begins, or is begun by, one of a command before it."""
    kind = _DIGITS if _is_sequence(profile, coding) else _coordinate_kind(profile)
    items = [
        item for part in coding[:MAX_CODING] for item in ([kind] if isinstance(part, str) else part)
    ][:MAX_CODING]
    before = codings.setdefault(items[0], []) if items else []
    other = next((other for other, others in before if _meet(items, others)), None)
    if len(before) > MAX_ALIKE:
        findings.add(coding, f"at most {MAX_ALIKE} codings must start with the same code")
    elif other is not None:
        findings.add(coding, f"bytes of {name} must differ, from the start, from those of {other}")
    else:
        before.append((name, items))


def _meet(one, other):
    """Tell whether some bytes that `one` stands for begin, or equal, or are begun by, some that `other` stands for."""
    todo, seen = [(0, 0)], set()
    while todo:
        here, there = todo.pop()
        if here == len(one) or there == len(other):
            return True
        if (here, there) not in seen:
            seen.add((here, there))
            todo += [(here + a, there + b) for a, b in _steps(one[here], other[there])]
    return False


def _steps(one, other):
    """Return how far two items, a byte or a kind of slot each, can go on together."""
    if one == other == _DIGITS:
        return (1, 0), (0, 1), (1, 1)
    if one == _DIGITS and other in b"0123456789":
        return (0, 1), (1, 1)
    if other == _DIGITS and one in b"0123456789":
        return (1, 0), (1, 1)
    return ((1, 1),) if one == other or _ONE_BYTE in (one, other) else ()


def _check_fresh(profile, findings):
    commands = {command.name: command for command in profile.commands}
    if not profile.fresh:
        findings.add(
            profile.place.of("fresh"),
            "fresh must name the commands that bring the screen into a known state",
        )
    for name in profile.fresh:
        try_check(_check_fresh_name, name, commands, findings)


def _check_fresh_name(name, commands, findings):
    if name not in commands:
        findings.add(
            name,
            f"fresh must name commands of this profile, not {quoted(name)}{nearest(name, commands)}",
        )
    elif {"row", "column"} & {part for part in commands[name].bytes if isinstance(part, str)}:
        findings.add(name, f"fresh must name commands without a place, not {name}")
