"""Every command as words that end by themselves, with the files that they need."""

import pathlib
import shutil
from typing import NamedTuple

from helpers.paths import RUN_FILES
from termprobe.cli.main import COMMANDS

from .good_inputs import PROFILE, SCRIPT


class Call(NamedTuple):
    """A command, and the exit code with which it ends where nobody answers."""

    words: tuple[object, ...]
    code: int = 0


BENCH = ("--profile", PROFILE, "--script", SCRIPT, "--port", "sim:", "--board", "1", "--out", "out")
"""A small board, and few steps."""
SHORT_RUN = (*BENCH, "--stage", "power")
KEYS = ("keys", "--profile", PROFILE, "--port", "sim:", "--board", "1", "--out", "out", "--quick")
RUN, OTHER = "session.run.jsonl", "addressing.run.jsonl"
"""Stand in the folder in which a command is called."""
CALLS = {
    "nothing": Call(()),
    "help": Call(("--help",)),
    "help of run": Call(("run", "--help")),
    "version": Call(("--version",)),
    "a bad word": Call(("run", "--nonsense", "é\x1b[2J"), 2),
    "demo": Call(("demo", "--out", "out")),
    "session": Call(("session", *SHORT_RUN), 4),
    "session plain": Call(("session", *SHORT_RUN, "--plain"), 4),
    "session that asks": Call(("session",), 2),
    "run": Call(("run", *SHORT_RUN), 4),
    "run json": Call(("run", *BENCH, "--json", "--junit", "junit.xml"), 4),
    "run resume": Call(("run", "--resume", RUN, "--port", "sim:"), 1),
    "keys": Call(KEYS),
    "keys plain": Call((*KEYS, "--plain")),
    "keys list": Call(("keys", "--profile", PROFILE, "--list")),
    "note": Call(("note", OTHER, "-", "U7 is hot")),
    "card": Call(("card", "--profile", PROFILE, "--script", SCRIPT)),
    "report": Call(("report", RUN), 1),
    "report html": Call(("report", RUN, "--format", "html"), 1),
    "report junit": Call(("report", RUN, "--format", "junit", "-o", "report.xml"), 1),
    "errata": Call(("errata", RUN, OTHER)),
    "compare": Call(("compare", RUN, RUN)),
    "profile list": Call(("profile", "list")),
    "profile show": Call(("profile", "show", "club-16x64")),
    "profile check": Call(("profile", "check", PROFILE)),
    "script list": Call(("script", "list")),
    "script show": Call(("script", "show", SCRIPT, "--profile", PROFILE, "--steps")),
    "script check": Call(("script", "check", SCRIPT, "--profile", PROFILE)),
    "diagnose": Call(("diagnose", OTHER), 1),
    "explain": Call(("explain", "--profile", PROFILE, "--sent", "AB", "--seen", "BB"), 1),
    "coverage": Call(("coverage", "--profile", PROFILE, "--script", SCRIPT)),
    "render": Call(("render", "--profile", PROFILE)),
    "link": Call(("link", "--profile", "singlebyte-24x80", "--port", "sim:", "--out", "out"), 4),
    "link silent": Call(("link", "--silent"), 2),
    "soak": Call(("soak", "--port", "loop://", "--characters", "200", "--speed", "19200")),
    "monitor": Call(("monitor", "--port", "loop://", "--send", "HELLO", "--for", "0.3")),
    "sim": Call(("sim", "--profile", PROFILE, "--faults")),
    "baud": Call(("baud", "--profile", PROFILE)),
    "ports": Call(("ports",)),
}
"""What is called."""
assert {words[0] for words, _ in CALLS.values() if words} >= set(COMMANDS)


def furnish(folder):
    """Put the files that CALLS name into `folder`."""
    for name in (RUN, OTHER):
        shutil.copy(RUN_FILES / name, pathlib.Path(folder, name))
