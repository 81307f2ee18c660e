"""Exit codes, and the families of errors that a user can meet, each with its exit code.

A message is one or a few plain lines: where, what must be, not what was given, what to try.
"""

from collections.abc import Iterable

EXIT_PASSED = 0
EXIT_FAILED = 1
EXIT_USAGE = 2
EXIT_LINK = 3
EXIT_INCOMPLETE = 4
EXIT_INTERRUPTED = 130
EXIT_CUT_OFF = 141
"""Whoever read what is printed has gone: 128 and the number of SIGPIPE, as shells tell it."""
_EXIT_OF_VERDICT = {"pass": EXIT_PASSED, "fail": EXIT_FAILED, "incomplete": EXIT_INCOMPLETE}


def exit_code_of(verdict: str) -> int:
    """Return the exit code for the verdict of a run: pass, fail or incomplete."""
    return _EXIT_OF_VERDICT[verdict]


class TermprobeError(Exception):
    """Anything that ends a command with a message instead of a result."""

    exit_code = EXIT_USAGE


class UsageError(TermprobeError):
    """A word on the command line that cannot be followed."""


class FileError(TermprobeError):
    """A profile, script, answers or run file that cannot be used."""

    def __init__(self, findings: Iterable[str]) -> None:
        """`findings` are all reasons, in file order."""
        self.findings = tuple(findings)
        super().__init__("\n".join(self.findings))


class LinkError(TermprobeError):
    """The serial line, or what stands in for it, cannot be used. Never a fault of the board."""

    exit_code = EXIT_LINK


class LinkMissingError(LinkError):
    """There is no such port."""


class LinkBusyError(LinkError):
    """Another program holds the port."""


class LinkDeniedError(LinkError):
    """The user may not open the port."""


class LinkSettingsError(LinkError):
    """The port refuses a speed, format or control line."""


class LinkLostError(LinkError):
    """The port vanished while in use."""


class ObserverError(TermprobeError):
    """An observer that should have answered could not; the step stays unanswered."""

    exit_code = EXIT_INCOMPLETE


class JournalError(TermprobeError):
    """The run file cannot be written; the run must stop at once."""

    exit_code = EXIT_INCOMPLETE
