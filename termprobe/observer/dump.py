"""A program that prints the screen of the board under test as rows of text.

It makes every look answer itself. dumped.py says what it prints.
"""

import contextlib
import os
import selectors
import shlex
import signal
import subprocess
import time
from typing import IO, NamedTuple

from termprobe.clock import Clock
from termprobe.errors import ObserverError, UsageError
from termprobe.journal.records import AS_EXPECTED, DUMP, Answer
from termprobe.notation import visible
from termprobe.observer.base import Offer, compared
from termprobe.observer.dumped import Dumped, read_dump
from termprobe.plan.model import Ask, Look, Step, expected_of
from termprobe.terminal.screen import Screen

MATCH_LIMIT_S = 2.0
"""So long a dump that does not match yet is taken again."""
PAUSE_S = 0.1
"""Between two dumps."""
PROGRAM_LIMIT_S = 10.0
"""So long the program may take for one dump."""
MAX_BYTES = 1_000_000
_LOOK_S = 0.05


class DumpObserver:
    """Runs `command`, split as a shell would split it, without a shell.

    It sees characters, and the cursor where the program tells it: no bell, no rendition.
    """

    strength = DUMP

    def __init__(
        self,
        command: str,
        clock: Clock,
        name: str = "dump",
        program_limit_s: float = PROGRAM_LIMIT_S,
    ) -> None:
        try:
            self._words = shlex.split(command)
        except ValueError as error:
            raise UsageError(f"--dump must be a command, not {command!r} ({error})") from None
        if not self._words:
            raise UsageError("--dump must name a program, not nothing")
        self._clock, self._program_limit_s = clock, program_limit_s
        self._before: Dumped | None = None
        """The screen of the step before, None where it is not known."""
        self._begun = 0
        """How many steps were begun on a fresh screen since that dump."""
        self.name = name

    def begin(self) -> None:
        """Take note that a step draws a screen; another one than the look in hand is not dumped."""
        self._begun += 1

    def can_answer(self, step: Step) -> bool:
        """Return whether the step compares characters.

        A question about the screen of a check before it, which sends nothing itself, does so too.
        """
        is_after_check = isinstance(step, Ask) and not step.groups
        return (isinstance(step, Look) or is_after_check) and expected_of(step) is not None

    def answer(self, step: Step) -> Answer | None:
        """Return the Answer by one dump of the screen.

        That is the first that matches, or equals the one before it and is no longer the screen of
        the step before, or ends the time.
        """
        expected = expected_of(step)
        if expected is None:
            return None
        self._before = self._settled(expected)
        self._begun = 0
        return compared(expected, *self._before)

    def _settled(self, expected: Screen) -> Dumped:
        """Return the dump that counts for the screen `expected`."""
        deadline_s = self._clock.now_s() + MATCH_LIMIT_S
        now = self.dump(len(expected.rows), len(expected.rows[0]))
        late = self._before
        if late is None or self._begun > 1:
            late = now  # what stood there before is not known; this may be it
        last: Dumped | None = None
        while True:
            is_steady = now == last and now != late
            if is_steady or _is_as(expected, now) or self._clock.now_s() >= deadline_s:
                return now
            last = now
            self._clock.sleep_until(self._clock.now_s() + PAUSE_S)
            now = self.dump(len(expected.rows), len(expected.rows[0]))

    def dump(self, rows: int, columns: int) -> Dumped:
        """Return one dump of a screen of `rows` strings of `columns` characters at most.

        Raises ObserverError where there is none.
        """
        done = self._output()
        if done.code:
            said = visible(done.complaint.decode("utf-8", "replace").strip())[-200:]
            why = f" ({said})" if said else ""
            raise ObserverError(f"{self._called()} must end with exit code 0, not {done.code}{why}")
        text = done.output.decode("utf-8", "replace")
        return read_dump(text, rows, columns, self._called())

    def _called(self) -> str:
        return f"the dump command {visible(self._words[0])}"

    def _output(self) -> "_Done":
        """Run the program; it and its children end within the limit."""
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
            words = f"must be a program that can be run ({why}); see --dump"
            raise ObserverError(f"{self._called()} {words}") from None
        try:
            done = _gather(program, time.monotonic() + self._program_limit_s)
            if done is None:
                limit = f"within {self._program_limit_s:g} s, and it did not"
                raise ObserverError(f"{self._called()} must print one screen and end {limit}")
            return done
        finally:
            _end(program)


OFFER = Offer(
    option="--dump",
    metavar="COMMAND",
    help="program that prints the screen of the board as rows of text; it answers every look. "
    "Behind the rows it may print a form feed and a line `cursor: ROW,COLUMN`, from 0, for the "
    "cursor to be judged too; bell and renditions it does not show",
    make=lambda command, plan, clock: DumpObserver(command, clock),
)


def _is_as(expected: Screen, dumped: Dumped) -> bool:
    """Return whether a dump shows all that is expected, as far as it can."""
    return compared(expected, *dumped).word == AS_EXPECTED


class _Done(NamedTuple):
    """A program that has ended."""

    code: int
    output: bytes
    complaint: bytes


def _gather(program: subprocess.Popen[bytes], deadline_s: float) -> _Done | None:
    """Return what the program printed, None where it did not end by itself in time.

    It is None too where more was printed than may be. A child that the program left behind may hold
    the pipes open; what is there once the program has ended is enough.
    """
    assert program.stdout and program.stderr
    kept: dict[IO[bytes], bytes] = {program.stdout: b"", program.stderr: b""}
    with selectors.DefaultSelector() as selector:
        for pipe in kept:
            selector.register(pipe, selectors.EVENT_READ, pipe)
        while selector.get_map() and (left_s := deadline_s - time.monotonic()) > 0:
            ready = selector.select(min(left_s, _LOOK_S))
            if not ready and program.poll() is not None:
                break
            for key, _ in ready:
                data = os.read(key.fd, 65536)
                kept[key.data] += data
                if not data:
                    selector.unregister(key.fileobj)
                if len(kept[key.data]) > MAX_BYTES:
                    return None
    try:
        code = program.wait(max(0.0, deadline_s - time.monotonic()))
    except subprocess.TimeoutExpired:
        return None
    return _Done(code, kept[program.stdout], kept[program.stderr])


def _end(program: subprocess.Popen[bytes]) -> None:
    """End the program and what it started, and let go of its pipes."""
    with contextlib.suppress(ProcessLookupError, PermissionError):
        os.killpg(program.pid, signal.SIGKILL)
    program.wait()
    for pipe in (program.stdout, program.stderr):
        if pipe:
            pipe.close()
