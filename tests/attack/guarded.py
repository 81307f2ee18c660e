"""Calls in this process under guard: time, memory, what is said and how it ends."""

import contextlib
import io
import resource
import signal
import sys
from typing import NamedTuple

from termprobe.cli.main import main
from termprobe.errors import EXIT_PASSED, EXIT_USAGE
from termprobe.notation import visible

MOST_S = 2.0
"""Of processor time for one input, so that other work on the machine does not count."""
MOST_BYTES = 500_000_000
"""Of memory beyond what the process had before."""
GOOD_CODES = (0, 1, 2, 3, 4)
GUARDED_CODES = {"taken": EXIT_PASSED, "refused": EXIT_USAGE}
MISTAKES = ("a mistake in termprobe itself", "cannot be judged (", "there must be more memory")
"""Words by which the program owns to one, or to want too much."""
MOST_TOLD = 300


class TooSlowError(BaseException):
    """An input has taken more than its time; no handler in the program takes it for its own."""


class Outcome(NamedTuple):
    """How a call ended."""

    code: int | None
    wrong: str
    """What was wrong with it; empty where nothing was."""
    told: str = ""
    """What it printed on standard output."""
    complained: str = ""
    """What it printed on standard error."""


class EndedFromOutside(SystemExit):
    """The attack itself is to end, whatever is under attack just now."""


def limit_memory():
    """Let this process have so much memory more, and no byte beyond it."""
    with open("/proc/self/statm", encoding="ascii") as file:
        pages = int(file.read().split()[0])
    most = pages * resource.getpagesize() + MOST_BYTES
    resource.setrlimit(resource.RLIMIT_AS, (most, most))


def called(words, data=b"", most_s=MOST_S):
    """Return the Outcome of the program, called with `words` and `data` on standard input.

    It may take `most_s` of processor time.
    """
    stdin, sys.stdin = sys.stdin, io.TextIOWrapper(io.BytesIO(data), encoding="utf-8")
    try:
        return guarded(lambda: main(words), most_s)
    finally:
        sys.stdin = stdin


def guarded(deed, most_s=MOST_S):
    """Return the Outcome of `deed`, a function that returns an exit code."""
    out, error = io.StringIO(), io.StringIO()
    before = signal.signal(signal.SIGPROF, _too_slow)
    signal.setitimer(signal.ITIMER_PROF, most_s)
    try:
        with contextlib.redirect_stdout(out), contextlib.redirect_stderr(error):
            code = deed()
    except TooSlowError:
        return Outcome(None, f"more than {most_s} s")
    except EndedFromOutside:
        raise
    except BaseException as raised:
        return Outcome(None, f"raised {raised!r}"[:MOST_TOLD])
    finally:
        signal.setitimer(signal.ITIMER_PROF, 0)
        signal.signal(signal.SIGPROF, before)
    told, complained = out.getvalue(), error.getvalue()
    return Outcome(code, _wrong_with(code, told, complained)[:MOST_TOLD], told, complained)


def _too_slow(*_):
    raise TooSlowError


def _wrong_with(code, out, error):
    if any(mistake in error for mistake in MISTAKES):
        return error
    if code not in GOOD_CODES:
        return f"exit code {code}"
    return raw_in(out + error)


def raw_in(told):
    """Return the first line that holds a raw control character; empty where none does."""
    raw = [line for line in told.split("\n") if visible(line) != line]
    return f"raw: {raw[0]!r}"[:MOST_TOLD] if raw else ""
