"""A program that prints the screen of the board under test as rows of text; it makes every look answer itself."""

import os
import selectors
import shlex
import signal
import subprocess
import time

from termprobe.errors import UsageError, ObserverError
from termprobe.notation import visible
from termprobe.plan.model import LOOK
from termprobe.terminal.screen import differences
from termprobe.observer.base import DUMP, Offer, compared

MATCH_LIMIT_S = 2.0
"""So long a dump that does not match yet is taken again."""
PAUSE_S = 0.1
"""Between two dumps."""
PROGRAM_LIMIT_S = 10.0
"""So long the program may take for one dump."""
MAX_BYTES = 1_000_000
_LOOK_S = 0.05


class DumpObserver:
    """Runs `command`, split as a shell would split it, without a shell. It tells rows, not the cursor."""

    strength = DUMP

    def __init__(self, command, clock, name="dump", program_limit_s=PROGRAM_LIMIT_S):
        try:
            self._words = shlex.split(command)
        except ValueError as error:
            raise UsageError(f"--dump must be a command, not {command!r} ({error})") from None
        if not self._words:
            raise UsageError("--dump must name a program, not nothing")
        self._clock, self._program_limit_s = clock, program_limit_s
        self.name = name

    def can_answer(self, step):
        """Return whether the step is a look."""
        return step.kind == LOOK and step.expected is not None

    def answer(self, step):
        """Return the Answer by the first dump that matches, equals the one before it, or ends the time."""
        deadline_s = self._clock.now_s() + MATCH_LIMIT_S
        before = None
        while True:
            rows = self.rows(len(step.expected.rows), len(step.expected.rows[0]))
            is_steady = rows == before or self._clock.now_s() >= deadline_s
            if is_steady or not differences(step.expected.rows, rows):
                return compared(step, rows)
            before = rows
            self._clock.sleep_until(self._clock.now_s() + PAUSE_S)

    def rows(self, rows, columns):
        """Return one dump as `rows` strings of `columns` characters at most; raise ObserverError where there is none."""
        code, output, complaint = self._output()
        if code:
            said = visible(complaint.decode("utf-8", "replace").strip())[-200:]
            raise ObserverError(
                f"{self._called()} must end with exit code 0, not {code}"
                + (f" ({said})" if said else "")
            )
        return _rows_of(output.decode("utf-8", "replace"), rows, columns, self._called())

    def _called(self):
        return f"the dump command {visible(self._words[0])}"

    def _output(self):
        """Return (exit code, standard output, standard error); the program and its children end within the limit."""
        try:
            program = subprocess.Popen(
                self._words,
                stdin=subprocess.DEVNULL,
                stdout=subprocess.PIPE,
                stderr=subprocess.PIPE,
                start_new_session=True,
            )
        except (OSError, ValueError) as error:
            why = getattr(error, "strerror", None) or str(error)
            raise ObserverError(
                f"{self._called()} must be a program that can be run ({why}); see --dump"
            ) from None
        try:
            output, complaint, is_ended = _gather(program, time.monotonic() + self._program_limit_s)
            if not is_ended:
                raise ObserverError(
                    f"{self._called()} must print one screen and end within {self._program_limit_s:g} s, "
                    "and it did not"
                )
            return program.returncode, output, complaint
        finally:
            _end(program)


def _gather(program, deadline_s):
    """Return (standard output, standard error, whether the program ended by itself and printed no more than it may).

    A child that the program left behind may hold the pipes open; what is there once the program has ended is enough.
    """
    kept = {program.stdout: b"", program.stderr: b""}
    with selectors.DefaultSelector() as selector:
        for pipe in kept:
            selector.register(pipe, selectors.EVENT_READ)
        while selector.get_map() and (left_s := deadline_s - time.monotonic()) > 0:
            ready = selector.select(min(left_s, _LOOK_S))
            if not ready and program.poll() is not None:
                break
            for key, _ in ready:
                data = os.read(key.fd, 65536)
                kept[key.fileobj] += data
                if not data:
                    selector.unregister(key.fileobj)
                if len(kept[key.fileobj]) > MAX_BYTES:
                    return kept[program.stdout], kept[program.stderr], False
    try:
        program.wait(max(0.0, deadline_s - time.monotonic()))
    except subprocess.TimeoutExpired:
        return kept[program.stdout], kept[program.stderr], False
    return kept[program.stdout], kept[program.stderr], True


def _end(program):
    """End the program and what it started, and let go of its pipes."""
    try:
        os.killpg(program.pid, signal.SIGKILL)
    except (ProcessLookupError, PermissionError):
        pass
    program.wait()
    program.stdout.close()
    program.stderr.close()


def _rows_of(text, rows, columns, called):
    """Return the rows in `text`, blanks at their ends removed; raise ObserverError where it cannot be a screen of that size.

    The line feed behind the last row may be left out, so a last row that is blank may look like the end of the one before.
    """
    lines = [line.rstrip("\r").rstrip(" ") for line in text.split("\n")]
    while len(lines) > rows and not lines[-1]:
        lines.pop()
    if len(lines) != rows:
        raise ObserverError(f"{called} must print {rows} rows, not {len(lines) - (not lines[-1])}")
    for number, line in enumerate(lines):
        if len(line) > columns:
            raise ObserverError(
                f"{called} must print rows of at most {columns} characters, not {len(line)} in row {number}"
            )
        if any(ord(character) < 0x20 or 0x7F <= ord(character) <= 0x9F for character in line):
            raise ObserverError(
                f"{called} must print rows of plain text, not {visible(line)[:40]!r} in row {number}"
            )
    return tuple(lines)


OFFER = Offer(
    option="--dump",
    metavar="COMMAND",
    help="program that prints the screen of the board as rows of text; it answers every look",
    make=lambda command, plan, clock: DumpObserver(command, clock),
)
