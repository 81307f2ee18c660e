"""Every command on odd consoles: without streams, without letters, without room."""

import os
import random
import sys
import tempfile
from concurrent.futures import ThreadPoolExecutor
from typing import NamedTuple

from helpers.paths import ROOT

from . import pythons
from .commands import CALLS, furnish
from .programs import COMPLAINT, Program, raw_in, trouble_of, wrong_with
from .ptys import on_terminal
from .tables import Failed, failures_told, heading, row

CUT_OFF, REFUSED = 141, 2
AT_ONCE = 2
"""So many programs at a time."""
COMPILED = os.path.join(tempfile.gettempdir(), "termprobe-attack-compiled")
"""Where other versions of Python keep what they have compiled."""
ASCII = {"LC_ALL": "C", "PYTHONUTF8": "0", "PYTHONCOERCECLOCALE": "0"}


class Odd(NamedTuple):
    """A console as few have it."""

    environment: dict[str, str | None] = {}
    redirected: str = ""
    """What stands behind the command for the shell."""
    codes: tuple[int, ...] = ()
    """The exit codes that there may be beside the usual one."""
    size: tuple[int, int] | None = None
    """Rows and columns of a terminal; None where there is none."""
    python: str = sys.executable


CONSOLES = {
    "C locale": Odd({"LC_ALL": "C"}),
    "C locale, ASCII": Odd(ASCII),
    "POSIX locale, ASCII": Odd({**ASCII, "LC_ALL": "POSIX"}),
    "PYTHONIOENCODING=ascii": Odd({"PYTHONIOENCODING": "ascii"}),
    "NO_COLOR": Odd({"NO_COLOR": "1"}),
    "python -O": Odd({"PYTHONOPTIMIZE": "1"}),
    "python -OO": Odd({"PYTHONOPTIMIZE": "2"}),
    "standard input closed": Odd(redirected="<&-"),
    "standard output closed": Odd(redirected=">&-"),
    "standard errors closed": Odd(redirected="2>&-"),
    "all three closed": Odd(redirected="<&- >&- 2>&-"),
    "standard output full": Odd(redirected=">/dev/full", codes=(REFUSED,)),
    "standard errors full": Odd(redirected="2>/dev/full"),
    "| head -1": Odd(redirected="| head -1", codes=(CUT_OFF,)),
    "2>&1 | head -1": Odd(redirected="2>&1 | head -1", codes=(CUT_OFF,)),
    "| true": Odd(redirected="| true", codes=(CUT_OFF,)),
    "2>&1 | true": Odd(redirected="2>&1 | true", codes=(CUT_OFF,)),
    "terminal": Odd(size=(24, 80)),
    "terminal, TERM=dumb": Odd({"TERM": "dumb"}, size=(24, 80)),
    "terminal, TERM unset": Odd({"TERM": None}, size=(24, 80)),
    "terminal, TERM of no kind": Odd({"TERM": "no-such"}, size=(24, 80)),
    "terminal, NO_COLOR": Odd({"NO_COLOR": "1"}, size=(24, 80)),
    "terminal, ASCII": Odd(ASCII, size=(24, 80)),
    "terminal of 20 columns": Odd(size=(24, 20)),
    "terminal of 1 column": Odd(size=(24, 1)),
    "terminal of 1 row": Odd(size=(1, 80)),
    "terminal of no size": Odd(size=(0, 0)),
}
FULL_SCREEN = "\x1b[?1049h"
"""Begins one, on a terminal that has them."""
WITHOUT_ESCAPES = ("TERM=dumb", "TERM unset")


def consoles():
    """Return name -> Odd of all, another version of Python being one as well."""
    others = {
        f"Python {version}": Odd({"PYTHONPYCACHEPREFIX": COMPILED}, python=path)
        for version, path in pythons.others().items()
    }
    return {**CONSOLES, **others}


def attack(request):
    """Call every command on every console once, print how they fared; return how many failed."""
    found = consoles()
    tries = [(console, call) for console in found for call in CALLS]
    chance = random.Random(request.seed)
    tries = sorted(chance.sample(tries, min(len(tries), request.how_many(len(tries)))))
    heading("Every command on odd consoles", *("console", "tried", "failed"))
    with ThreadPoolExecutor(AT_ONCE) as pool:
        wrongs = list(pool.map(lambda one: _tried(found[one[0]], *one), tries))
    failures = 0
    for console in found:
        own = [
            (call, wrong) for (of, call), wrong in zip(tries, wrongs, strict=True) if of == console
        ]
        failed = [
            Failed(n, b"", f"{call}: {wrong}") for n, (call, wrong) in enumerate(own) if wrong
        ]
        row(console, len(own), len(failed))
        failures_told(request.folder, console, failed)
        failures += len(failed)
    return failures


def _tried(odd, console, name):
    """Return what is wrong with a command on a console; empty where nothing is."""
    words, code = CALLS[name]
    with tempfile.TemporaryDirectory(prefix="termprobe-attack-") as folder:
        furnish(folder)
        if odd.size:
            return _typed_at(odd, words, folder, any(sign in console for sign in WITHOUT_ESCAPES))
        program = Program(words, folder, _environment(odd), odd.redirected, odd.python)
        ended = program.ended()
        if ended.code == CUT_OFF and COMPLAINT in ended.error:
            return f"complains that nobody reads: {ended.error!r}"
        return wrong_with(ended, {code, *odd.codes})


def _typed_at(odd, words, folder, is_without_escapes):
    ended = on_terminal(words, folder, _environment(odd), odd.size, odd.python)
    drawn = ended.out.replace("\r", "").replace("\a", "")
    if FULL_SCREEN in drawn and not is_without_escapes:
        drawn = ""
    return trouble_of(ended) or raw_in(drawn)


def _environment(odd):
    """Return the environment; another Python finds its packages where this one has them."""
    if odd.python == sys.executable:
        return odd.environment
    return {**odd.environment, "PYTHONPATH": f"{ROOT}:{pythons.packages()}"}
