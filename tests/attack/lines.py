"""Lines pulled, blocked, flooded, dead at the far end; programs interrupted in every phase."""

import pathlib
import random
import signal
import tempfile
import time
from collections import defaultdict
from concurrent.futures import ThreadPoolExecutor
from typing import NamedTuple

from termprobe.cli.recorded import load_run
from termprobe.cli.soaked import is_soak, load_soak
from termprobe.errors import EXIT_INTERRUPTED, EXIT_LINK, FileError
from termprobe.journal.reading import read

from .far_ends import makers
from .good_inputs import PROFILE, SEEDS
from .programs import COMPLAINT, GOOD_CODES, Program, raw_in, trouble_of
from .ptys import OnTerminal
from .replugs import replugged
from .tables import Failed, failures_told, heading, row

USUAL = 300
ONE_REPLUG_IN = 30
AT_ONCE = 2
HANG_S = 5.0
"""Nothing may take longer from what ends it to its end."""
LONGEST_S = 6.0
"""Within so many seconds something happens to it."""
SHARE_S = 0.1
"""Few tries are short ones: of each so much for their number."""
LEFT_ALONE_S = 3.0
"""So long a program has to find out what is wrong with its line before it is interrupted."""
LINE_SCRIPT, OPTION_SCRIPT = SEEDS / "lines.yaml", SEEDS / "options.yaml"
ANSI = ("--profile", "ecma48-24x80")
BENCH = ("--board", "1", "--out", "out")
SCRIPTED = (*ANSI, "--script", LINE_SCRIPT, *BENCH)
SWITCHED = ("--profile", PROFILE, "--script", OPTION_SCRIPT, *BENCH)
TYPED = (b"\r", b"y", b"\r", b"y", b"n", b"\r", b"s", b"?", b"\r")
TYPED_LINES = tuple(key.strip() + b"\r" for key in TYPED)
TYPE_S = 0.35
"""So often a key is pressed."""


class Victim(NamedTuple):
    """A command, without its port."""

    words: tuple[object, ...]
    keys: tuple[bytes, ...] = ()
    """What is typed at its terminal; empty where it has none."""
    leave: bytes = b"\x03"
    """What is typed to end it at once."""


VICTIMS = {
    "run": Victim(("run", *SCRIPTED, "--dump", "true")),
    "run, typed": Victim(("run", *SCRIPTED), TYPED_LINES),
    "run with a switch": Victim(("run", *SWITCHED), TYPED_LINES),
    "session": Victim(("session", *SCRIPTED), TYPED),
    "session with a switch": Victim(("session", *SWITCHED), TYPED),
    "session --plain": Victim(("session", *SCRIPTED, "--plain"), TYPED_LINES),
    "keys": Victim(("keys", *ANSI, *BENCH), TYPED),
    "keys --plain": Victim(("keys", *ANSI, *BENCH, "--wait", "0.5")),
    "link": Victim(("link", *ANSI, *BENCH), TYPED),
    "link, unattended": Victim(("link", *ANSI, *BENCH)),
    "soak": Victim(("soak", "--for", "60", "--out", "out")),
    "monitor": Victim(("monitor", "--for", "60"), (b"a", b"\r"), leave=b"\x1d"),
    "monitor, listening": Victim(("monitor", "--for", "60", "--log", "log")),
}
SIGNALS = {"SIGINT": signal.SIGINT, "SIGTERM": signal.SIGTERM, "SIGHUP": signal.SIGHUP}
CONTROL_C, HANG_UP = "Ctrl-C typed", "console closed"
TYPED_ENDS = (CONTROL_C, HANG_UP)
UNPLUG, REPLUG, WAIT = "unplugged", "plugged in again", "left alone"
DEEDS = (*SIGNALS, *TYPED_ENDS, UNPLUG, REPLUG, WAIT)


class Try(NamedTuple):
    """One victim, the far end of its line, and what happens to it."""

    number: int
    victim: str
    far_end: str
    deed: str
    at_s: float
    """How long after its beginning."""


def attack(request):
    """Do to each program what is drawn by chance, print how they fared; return what failed."""
    count, chance = request.how_many(USUAL), random.Random(request.seed)
    longest_s = min(LONGEST_S, count * SHARE_S)
    tries = [_drawn(number, chance, longest_s) for number in range(count)]
    with ThreadPoolExecutor(AT_ONCE) as pool:
        wrongs = list(pool.map(_wrong_with, tries))
    failures = [
        Failed(one.number, repr(one).encode(), f"{one[1:]}: {wrong}")
        for one, wrong in zip(tries, wrongs, strict=True)
        if wrong
    ]
    numbers = {failed.number for failed in failures}
    for title, name in (("Programs", "victim"), ("Far ends", "far_end"), ("What is done", "deed")):
        heading(f"{title} of lines under attack", *(name, "tried", "failed"))
        found = defaultdict(list)
        for one in tries:
            found[getattr(one, name)].append(one.number)
        for word, own in sorted(found.items()):
            row(word, len(own), len(numbers.intersection(own)))
    failures_told(request.folder, "line", failures)
    return len(failures) + replugged(count // ONE_REPLUG_IN, request)


def _drawn(number, chance, longest_s=LONGEST_S):
    victim = chance.choice(list(VICTIMS))
    deeds = [deed for deed in DEEDS if VICTIMS[victim].keys or deed not in TYPED_ENDS]
    far_end = chance.choice(list(makers(chance)))
    return Try(number, victim, far_end, chance.choice(deeds), chance.uniform(0, longest_s))


def _wrong_with(one):
    """Return what is wrong with how a try went; empty where nothing is."""
    with tempfile.TemporaryDirectory(prefix="termprobe-attack-") as folder:
        far_end = makers(random.Random(one.number))[one.far_end](folder)
        try:
            ended, codes = _ended(one, far_end, folder)
        finally:
            far_end.close()
        return _trouble(one, ended, codes) or _unread(folder)


def _ended(one, far_end, folder):
    """Return (how the program Ended, the exit codes that are right)."""
    victim = VICTIMS[one.victim]
    words = (*victim.words, "--port", far_end.url)
    program = OnTerminal(words, folder) if victim.keys else Program(words, folder)
    program.wait_for_signals()
    _type(program, victim, one.at_s)
    if program.process.poll() is None:
        return _done_to(program, victim, one, far_end)
    return program.ended(), GOOD_CODES


def _type(program, victim, seconds):
    """Let somebody type for so long, or let it be where nobody can."""
    end_s, number = time.monotonic() + seconds, 0
    while time.monotonic() < end_s and program.process.poll() is None:
        if victim.keys:
            program.type(victim.keys[number % len(victim.keys)])
            program.read(0.0)
        number += 1
        time.sleep(min(TYPE_S, max(0.0, end_s - time.monotonic())))


def _done_to(program, victim, one, far_end):
    if one.deed in SIGNALS:
        number = SIGNALS[one.deed]
        program.signal(number)
        ended = program.ended(HANG_S)
        if ended.code == -number and COMPLAINT in ended.out + ended.error:
            ended = ended._replace(code=EXIT_INTERRUPTED)  # it had said all, and was about to end
        return ended, (EXIT_INTERRUPTED, *ENDINGS)
    if one.deed in TYPED_ENDS:
        if one.deed == HANG_UP:
            program.hang_up()
        else:
            program.type(victim.leave)
        return program.ended(HANG_S), (EXIT_INTERRUPTED, *ENDINGS)
    if one.deed != WAIT:
        far_end.unplug()
        if not victim.keys:
            return program.ended(HANG_S), ENDINGS
        _type(program, victim, 1.0)
        if one.deed == REPLUG:
            far_end.plug_in()
    _type(program, victim, LEFT_ALONE_S)
    program.signal(signal.SIGINT)
    return program.ended(HANG_S), (EXIT_INTERRUPTED, *ENDINGS)


ENDINGS = (0, 1, 2, EXIT_LINK, 4)
"""What a command may end with that nothing has interrupted."""


def _trouble(one, ended, codes):
    if VICTIMS[one.victim].keys:
        return trouble_of(ended, codes)
    lines = [line for line in ended.error.split("\n") if line.startswith(COMPLAINT)]
    if ended.code in (2, EXIT_LINK, EXIT_INTERRUPTED) and len(lines) > 1:
        return f"{len(lines)} complaints: {ended.error[-300:]!r}"
    if ended.code == EXIT_INTERRUPTED and not lines:
        return f"no word of the interrupt: {ended.error[-300:]!r}"
    return trouble_of(ended, codes) or raw_in(ended.out + ended.error)


def _unread(folder):
    """Return what is wrong with the run files; empty where nothing is."""
    for path in pathlib.Path(folder, "out").glob("*.run.jsonl"):
        recording = read(path)
        if recording.damages or recording.torn is not None or recording.header is None:
            return f"run file damaged: {recording.damages}"
        try:
            (load_soak if is_soak(path) else load_run)(path)
        except FileError as error:
            return f"run file cannot be read: {error}"
    return ""
