"""What a session begins with, asked for where the command line does not tell it."""

import argparse
import os
from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass

from termprobe import yamlfile
from termprobe.cli.console import Console, is_typed_at
from termprobe.cli.last_answers import ASKED_FOR, last_answers
from termprobe.cli.shell_words import command_line
from termprobe.errors import FileError, UsageError
from termprobe.link.base import is_simulated
from termprobe.link.ports import ports
from termprobe.notation import visible
from termprobe.profile import load as profiles
from termprobe.script import load as scripts

METAVARS = {"port": "URL", "profile": "P", "script": "S", "board": "SERIAL"}
INTRODUCTION = (
    "What was not told is asked for; ENTER takes what stands in brackets.\n"
    "To practise without hardware take the port sim:, a simulated board; sim:FAULT\n"
    "has that fault, and sim:random one that is told only at the end."
)
PRACTICE_PORTS = (
    ("sim:", "practise on a simulated board"),
    ("sim:random", "the same, with a fault that is told only at the end"),
)
PRACTICE_BOARD = "practice"


@dataclass(frozen=True)
class Listed:
    """One answer that can be chosen."""

    value: str
    meaning: str


def missing(arguments: argparse.Namespace) -> list[str]:
    """Return what a session still has to know: names of options, in the order of asking."""
    needed = ("port",) if arguments.resume or arguments.after else ASKED_FOR
    return [name for name in needed if not getattr(arguments, name)]


def asked(arguments: argparse.Namespace, console: Console) -> dict[str, str]:
    """Return the answers to what `arguments` do not tell, asked for on `console`.

    Raises UsageError, which names the options, where nobody types.
    """
    names = missing(arguments)
    if not names:
        return {}
    if not is_typed_at():
        raise _untold(names)
    console.tell(INTRODUCTION)
    remembered, found = last_answers(), dict[str, str]()
    try:
        for name in names:
            known = {**vars(arguments), **found}
            found[name] = _answer(name, known, remembered.get(name, ""), console)
    except EOFError:
        raise _untold(names) from None
    return found


def same_again(arguments: argparse.Namespace) -> str:
    """Return the command line that tells all that was asked for."""
    words = ["termprobe", "session"]
    for name in ASKED_FOR:
        if getattr(arguments, name):
            words += [f"--{name}", getattr(arguments, name)]
    for name in ("resume", "after"):
        if getattr(arguments, name):
            words += [f"--{name}", getattr(arguments, name)]
    return command_line(words)


def _untold(names: Iterable[str]) -> UsageError:
    flags = " ".join(f"--{name} {METAVARS[name]}" for name in names)
    return UsageError(
        f"the session must be told {flags}: input is no terminal, so nobody can be asked; "
        "`termprobe ports`, `termprobe profile list` and `termprobe script list` show what there "
        "is, and --port sim: is a simulated board to practise on"
    )


def _answer(name: str, known: Mapping[str, object], last: str, console: Console) -> str:
    """Ask for `name` until the answer can be used; return it."""
    choices = CHOICES[name](known)
    default = last
    if name == "board" and not last and is_simulated(str(known["port"])):
        default = PRACTICE_BOARD
    console.tell("\n".join(["", f"{name.capitalize()}:", *_lines(choices)]).rstrip(":"))
    while True:
        typed = console.ask(_prompt(name, choices, default)).strip()
        value = _meant(typed or default, choices)
        wrong = _what_is_wrong(name, value)
        if not wrong:
            return _lasting(name, value)
        console.tell(wrong)


def _lines(choices: list[Listed]) -> list[str]:
    """Return a numbered line for each choice."""
    width = max((len(choice.value) for choice in choices), default=0)
    return [
        f"  {number}  {visible(choice.value):<{width}}  {visible(choice.meaning)}".rstrip()
        for number, choice in enumerate(choices, 1)
    ]


def _prompt(name: str, choices: list[Listed], default: str) -> str:
    how = {"board": "its serial number"}.get(name, "number or name")
    bracket = f" [{visible(default)}]" if default else ""
    return f"{name.capitalize()}, {how}{bracket}: "


def _meant(typed: str, choices: list[Listed]) -> str:
    """Return the answer that was typed; a number is that of a choice."""
    if typed.isascii() and typed.isdigit() and 1 <= int(typed) <= len(choices):
        return choices[int(typed) - 1].value
    return typed


def _what_is_wrong(name: str, value: str) -> str:
    """Return why an answer cannot be used; empty where it can."""
    if not value:
        return f"The {name} must be told."
    load: Callable[[str], object] | None = LOADERS.get(name)
    if load is None:
        return ""
    try:
        load(os.path.expanduser(value))
    except FileError as error:
        return "\n".join(visible(line) for line in str(error).split("\n"))
    return ""


def _lasting(name: str, value: str) -> str:
    """Return the answer as it holds from any folder: a file by its whole path."""
    path = os.path.expanduser(value)
    if name in LOADERS and os.path.exists(path):
        return os.path.abspath(path)
    return value


def _ports(known: Mapping[str, object]) -> list[Listed]:
    found = [
        Listed(port.path, "; ".join(filter(None, (port.adapter or "built in", port.hint))))
        for port in ports()
        if port.path
    ]
    return found + [Listed(*entry) for entry in PRACTICE_PORTS]


def _profiles(known: Mapping[str, object]) -> list[Listed]:
    """Return the profiles that come with termprobe; in practice those that can be simulated."""
    loaded = [profiles.load(profile_id) for profile_id in yamlfile.shipped_ids("profiles")]
    if is_simulated(str(known["port"])):
        loaded = [profile for profile in loaded if profile.circuit is not None]
    return [Listed(str(profile.id), str(profile.title)) for profile in loaded]


def _scripts(known: Mapping[str, object]) -> list[Listed]:
    return [
        Listed(script_id, scripts.load(script_id).title)
        for script_id in yamlfile.shipped_ids("scripts")
    ]


def _boards(known: Mapping[str, object]) -> list[Listed]:
    return []


CHOICES = {"port": _ports, "profile": _profiles, "script": _scripts, "board": _boards}
"""What can be chosen for each, by what is known already."""
LOADERS: Mapping[str, Callable[[str], object]] = {
    "profile": profiles.load,
    "script": scripts.load,
}
"""What reads the file that an answer names; it raises FileError."""
