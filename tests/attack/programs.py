"""The program as a process of its own, begun by a shell as a user begins it, till it ends."""

import contextlib
import os
import pathlib
import shlex
import signal
import subprocess
import sys
import time
from typing import NamedTuple

from helpers.paths import ROOT
from termprobe.errors import EXIT_INTERRUPTED

from .guarded import MISTAKES, MOST_TOLD, raw_in

ENTRY = ("-m", "termprobe.cli.main")
GOOD_CODES = (0, 1, 2, 3, 4, 130, 141)
LIMIT_S = 60.0
"""For a command that is left alone: a machine with other work takes its time to load Python."""
SET_UP_S = 2.0
COMPLAINT = "termprobe: "
"""Begins the line in which the program says why it ends early."""
OUT, ERROR = "stdout", "stderr"


class Ended(NamedTuple):
    """How a program ended."""

    code: int | None
    """None where it had to be killed."""
    out: str
    error: str
    seconds: float
    """From the moment at which it was to end."""


def code_of(process):
    """Return the exit code of an ended process as shells tell it where Ctrl-C has ended it."""
    if process.returncode == -signal.SIGINT:
        return EXIT_INTERRUPTED
    return process.returncode


class Program:
    """A program under way; what it prints goes into files of `folder`."""

    def __init__(
        self, words, folder, environment=(), redirected="", python=sys.executable, first=""
    ):
        self._folder = pathlib.Path(folder)
        line = _shell(shlex.join([python, *ENTRY, *map(str, words)]), redirected)
        with open(self._folder / OUT, "wb") as out, open(self._folder / ERROR, "wb") as error:
            self.process = subprocess.Popen(
                ["bash", "-c", f"{first}\n{line}"],
                stdin=subprocess.DEVNULL,
                stdout=out,
                stderr=error,
                cwd=self._folder,
                env=surroundings(self._folder, environment),
                start_new_session=True,
            )

    def told(self):
        """Return what it has printed so far, on either stream."""
        return "".join(_text(self._folder / name) for name in (OUT, ERROR))

    def wait_for(self, words, limit_s=LIMIT_S):
        """Wait until `words` are printed; return whether they were."""
        end_s = time.monotonic() + limit_s
        while words not in self.told():
            if self.process.poll() is not None or time.monotonic() > end_s:
                return False
            time.sleep(0.01)
        return True

    def wait_for_signals(self):
        """Wait until the program has come so far that it hears signals."""
        wait_for_signals(self.process)

    def signal(self, number):
        """Signal the program as its console does: all processes that it has begun."""
        with contextlib.suppress(ProcessLookupError):
            os.killpg(self.process.pid, number)

    def ended(self, limit_s=LIMIT_S):
        """Return how it Ended; it is killed where it does not within `limit_s`."""
        from_s = time.monotonic()
        try:
            self.process.wait(limit_s)
            code = code_of(self.process)
        except subprocess.TimeoutExpired:
            code = None
            self.signal(signal.SIGKILL)
            self.process.wait()
        seconds = time.monotonic() - from_s
        return Ended(code, _text(self._folder / OUT), _text(self._folder / ERROR), seconds)


def wait_for_signals(process):
    """Wait until a process has set itself up for SIGTERM; a short while where it never does."""
    end_s = time.monotonic() + SET_UP_S
    while process.poll() is None and time.monotonic() < end_s:
        status = pathlib.Path(f"/proc/{process.pid}/status").read_text(encoding="ascii")
        caught = int(status.partition("SigCgt:")[2].split()[0], 16)
        if caught >> (signal.SIGTERM - 1) & 1:
            return
        time.sleep(0.01)


def _shell(command, redirected):
    """Return the line of the shell; behind a pipe the exit code is still the program's."""
    if "|" in redirected:
        return f"{command} {redirected}; exit ${{PIPESTATUS[0]}}"
    return f"exec {command} {redirected}"


def surroundings(folder, environment):
    """Return the environment of a user whose home is `folder`, changed by `environment`."""
    home = {"HOME": str(folder), "XDG_CACHE_HOME": str(CACHE), "PYTHONPATH": str(ROOT)}
    found = {**os.environ, **home, **dict(environment)}
    return {name: value for name, value in found.items() if value is not None}


CACHE = pathlib.Path(os.environ.get("XDG_CACHE_HOME", os.path.expanduser("~/.cache")))
"""What takes long to work out is found where it was kept, as by a user's second call."""


def _text(path):
    return path.read_text(encoding="utf-8", errors="surrogateescape")


def wrong_with(ended, codes=GOOD_CODES):
    """Return what is wrong with a program that Ended; empty where nothing is."""
    return trouble_of(ended, codes) or raw_in(ended.out + ended.error)


def trouble_of(ended, codes=GOOD_CODES):
    """Return what is wrong with a program that Ended, whatever it may have drawn."""
    told = ended.out + ended.error
    if ended.code is None:
        return f"hangs: {told[-MOST_TOLD:]!r}"
    for sign in (*MISTAKES, "Traceback", "Exception ignored", "Fatal Python"):
        if sign in told:
            return told[told.index(sign) :][:MOST_TOLD]
    if ended.code not in codes:
        return f"exit code {ended.code}: {told[-MOST_TOLD:]!r}"
    return ""
