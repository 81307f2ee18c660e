"""Every file that a command writes, where it cannot be written, or only in part."""

import contextlib
import itertools
import pathlib
import random
import shutil
import tempfile
from concurrent.futures import ThreadPoolExecutor
from typing import NamedTuple

from termprobe.errors import EXIT_INCOMPLETE, EXIT_USAGE
from termprobe.journal.reading import read

from .commands import BENCH, CALLS, KEYS, OTHER, RUN, SHORT_RUN, furnish
from .poor_folders import FOLDERS
from .programs import COMPLAINT, Program, wrong_with
from .tables import Failed, failures_told, heading, row

AT_ONCE = 2
COVERAGE, SOAK, MONITOR = (CALLS[name].words for name in ("coverage", "soak", "monitor"))
FOLDER, FILE = "{folder}", "{file}"
"""Stand in words for where is written to."""


class Writer(NamedTuple):
    """A command that writes, and how it ends where it can."""

    words: tuple[object, ...]
    code: int = 0
    environment: dict[str, str] = {}
    begins: str = ""
    """The run file that stands there at the beginning."""
    must_write: bool = True
    """It is to complain where it cannot."""


WRITERS = {
    "run": Writer(("run", *SHORT_RUN, "--out", FOLDER), 4),
    "run, whole": Writer(("run", *BENCH, "--out", FOLDER), 4),
    "run --resume": Writer(("run", "--resume", FILE, "--port", "sim:"), 1, begins=RUN),
    "run --junit": Writer(("run", *SHORT_RUN, "--junit", FILE), 4),
    "session --plain": Writer(("session", *SHORT_RUN, "--plain", "--out", FOLDER), 4),
    "keys": Writer((*KEYS, "--out", FOLDER)),
    "link": Writer(("link", "--profile", "singlebyte-24x80", "--port", "sim:", "--out", FOLDER), 4),
    "soak": Writer((*SOAK, "--out", FOLDER)),
    "demo": Writer(("demo", "--out", FOLDER)),
    "monitor --log": Writer((*MONITOR, "--log", FILE)),
    "report -o": Writer(("report", RUN, "-o", FILE), 1),
    "report html -o": Writer(("report", RUN, "--format", "html", "-o", FILE), 1),
    "report junit -o": Writer(("report", RUN, "--format", "junit", "-o", FILE), 1),
    "errata -o": Writer(("errata", RUN, OTHER, "-o", FILE)),
    "errata --remedies": Writer(("errata", RUN, OTHER, "--remedies", FILE)),
    "compare -o": Writer(("compare", RUN, RUN, "-o", FILE)),
    "cache of coverage": Writer(COVERAGE, environment={"XDG_CACHE_HOME": FOLDER}, must_write=False),
    "cache of errata": Writer(
        ("errata", RUN, OTHER), environment={"XDG_CACHE_HOME": FOLDER}, must_write=False
    ),
    "home": Writer(COVERAGE, environment={"HOME": FOLDER, "XDG_CACHE_HOME": ""}, must_write=False),
}
REFUSED = (EXIT_USAGE, EXIT_INCOMPLETE)


class Try(NamedTuple):
    """One command, and where it writes to."""

    number: int
    writer: str
    folder: str


def attack(request):
    """Have each command write to each folder, print how they fared; return how many failed."""
    chance = random.Random(request.seed)
    pairs = [*itertools.product(WRITERS, FOLDERS)]
    count = request.how_many(len(pairs))
    rounds = -(-count // len(pairs))
    drawn = [pair for _ in range(rounds) for pair in chance.sample(pairs, len(pairs))][:count]
    tries = [Try(number, *pair) for number, pair in enumerate(drawn)]
    with ThreadPoolExecutor(AT_ONCE) as pool:
        wrongs = list(pool.map(lambda one: _tried(one, request.seed), tries))
    told = [(one, wrong) for one, wrong in zip(tries, wrongs, strict=True) if wrong]
    failures = [Failed(one.number, b"", f"{one[1:]}: {wrong}") for one, wrong in told]
    heading("Files that cannot be written", *("folder", "tried", "failed"))
    for folder in FOLDERS:
        own = sum(one.folder == folder for one in tries)
        row(folder, own, sum(one.folder == folder for one, _ in told))
    failures_told(request.folder, "file", failures)
    return len(failures)


def _tried(one, seed):
    """Return what is wrong with how a command ends that writes there; empty where nothing is."""
    writer, chance = WRITERS[one.writer], random.Random(f"{seed} {one.number}")
    with tempfile.TemporaryDirectory(prefix="termprobe-attack-") as called_in:
        furnish(called_in)
        with FOLDERS[one.folder](str(pathlib.Path(called_in, "there")), chance) as (first, folder):
            places = {name: str(pathlib.Path(called_in, name)) for name in (RUN, OTHER)}
            places |= {FOLDER: folder, FILE: str(pathlib.Path(folder, writer.begins or "file"))}
            _begin(called_in, writer, places[FILE])
            words = [places.get(word, word) for word in writer.words]
            given = {name: places.get(value, value) for name, value in writer.environment.items()}
            program = Program(words, called_in, given, first=first)
            ended = program.ended()
            if not ended.error and "ulimit" in first and ended.code in REFUSED:
                writer = writer._replace(must_write=True)  # what it printed has no room either
                ended = ended._replace(error=COMPLAINT)
            return _wrong(ended, writer) or _damaged(pathlib.Path(called_in, folder))


def _begin(called_in, writer, path):
    """Put the file there that is gone on with, where there is room for it."""
    if writer.begins:
        with contextlib.suppress(OSError):
            shutil.copy(pathlib.Path(called_in, writer.begins), pathlib.Path(called_in, path))


def _wrong(ended, writer):
    complaints = [line for line in ended.error.split("\n") if line.startswith(COMPLAINT)]
    if len(complaints) > 1 and len(set(complaints)) == 1:
        return f"complains {len(complaints)} times: {complaints[0]}"
    if not writer.must_write or not complaints:
        return wrong_with(ended, (writer.code,))
    return wrong_with(ended, REFUSED)


def _damaged(folder):
    """Return what is wrong with the run files; empty where nothing is but a torn end."""
    for path in folder.glob("*.run.jsonl"):
        recording = read(path)
        if path.name in (RUN, OTHER):  # these are damaged as they are
            continue
        if len(recording.damages) > (recording.torn is not None):
            return f"run file damaged: {recording.damages}"
    return ""
