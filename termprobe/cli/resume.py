"""Tells how to go on with what ended early, by a whole command that can be copied."""

import argparse
import contextlib
import pathlib
from collections.abc import Iterator

from termprobe.cli.console import Console
from termprobe.cli.report_page import leave_page_so_far
from termprobe.cli.shell_words import command_line
from termprobe.errors import TermprobeError
from termprobe.verdict.model import INCOMPLETE, UNANSWERED, RunVerdict

VALUES = ("port", "speed", "wait", "cable")
"""Options with a value that a run file does not tell; what it tells is not said again."""
FLAGS = ("plain", "json", "carry_on", "until_sure")
CHOICES = {"order": "listed"}
"""Options with a value, told only where it is not this one."""


def resume_command(arguments: argparse.Namespace, path: pathlib.Path) -> str:
    """Return the command line that goes on with the run file at `path`, quoted for a shell.

    `arguments` are those that the run was begun with.
    """
    given = vars(arguments)
    words = ["termprobe", str(given["command"]), "--resume", str(path)]
    for name, value in given.items():
        if value is None or value is False:
            continue
        if name in VALUES or (name in CHOICES and value != CHOICES[name]):
            words += [f"--{name}", _shown(value)]
        elif name in FLAGS:
            words.append(f"--{name.replace('_', '-')}")
        elif name.startswith("--"):  # whom an option brings in, such as --dump
            words += [name, _shown(value)]
    return command_line(words)


def _shown(value: object) -> str:
    return f"{value:g}" if isinstance(value, float) else str(value)


@contextlib.contextmanager
def kept(path: pathlib.Path, what: str, command: str, console: Console) -> Iterator[None]:
    """Tell where the answers are if what is done within this ends early, by whatever it is.

    Where a person, the line or the disk ends it, its page is left as well.

    `what` is called so: `run`, `walk`; `command` goes on with it. What ended it passes through.
    """
    try:
        yield
    except BaseException as error:
        console.tell(f"The {what} so far is in {path}; go on with:\n  {command}")
        if isinstance(error, KeyboardInterrupt | TermprobeError):
            leave_page_so_far(path, console)
        raise


def tell_resume(verdict: RunVerdict, command: str, console: Console) -> None:
    """Tell by which `command` to go on, where the `verdict` leaves anything to do."""
    if verdict.switch_off:
        console.tell("The board must be switched off. Put it right, then measure again:")
    if verdict.verdict == INCOMPLETE or verdict.count(UNANSWERED) or verdict.switch_off:
        console.tell(f"Go on with:\n  {command}")
