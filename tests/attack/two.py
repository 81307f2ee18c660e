"""Two programs at one run file, resumes of something else, and runs begun in one second."""

import pathlib
import shutil
import tempfile
from multiprocessing import get_context

from termprobe.clock import SystemClock
from termprobe.journal.file import Journal
from termprobe.journal.reading import read

from .good_inputs import PROFILE, SCRIPT
from .guarded import called
from .tables import heading, row

USUAL = 20
OF_TINY = ("--profile", str(PROFILE), "--script", str(SCRIPT))
BEGUN = ("run", *OF_TINY, "--port", "sim:", "--board", "7", "--stage", "power")
KEYS = ("keys", "--profile", str(PROFILE), "--port", "sim:", "--board", "7")
SOAK = ("soak", "--port", "loop://", "--characters", "100", "--board", "7")
GONE_ON = {
    "run": (BEGUN, ("run", "--port", "sim:")),
    "session": (BEGUN, ("session", "--plain", "--port", "sim:")),
    "keys": (KEYS, ("keys", "--port", "sim:")),
    "soak": (SOAK, ("soak", "--port", "loop://")),
}
"""Command: the words that begin a run file, and those that go on with it."""
OTHERS = (
    ("profile", ("--profile", "club-16x64"), "--profile must be tiny on --resume"),
    ("script", ("--script", "quick"), "--script must be tiny on --resume"),
    ("board", ("--board", "8"), "--board must be 7 on --resume"),
    ("builder", ("--builder", "me"), "--builder must not be given on --resume"),
    ("port", ("--port", "sim:echo-gate/stuck-open"), "so far it was over sim:"),
    ("speed", ("--speed", "300"), "so far it was over sim: 4800 baud"),
)
"""What a run is gone on with that it was not begun with: what must be said."""
FORKING = get_context("fork")
HELD = "another program is writing this run; end it first"


def attack(request):
    """Try each of it, print how it fared, and return how much failed."""
    heading("Two at one run file", *("what", "tried", "failed"))
    count = request.how_many(USUAL)
    failed = _rows(GONE_ON, "a second {}", lambda name: _second(*GONE_ON[name]))
    names = {name: (words, told) for name, words, told in OTHERS}
    failed += _rows(names, "resumed with another {}", lambda name: _other(*names[name]))
    wrong = _in_one_second(count)
    row("begun in one second, in one folder", count, len(wrong))
    for one in wrong:
        print(f"    {one}", flush=True)
    return failed + len(wrong)


def _rows(names, what, tried):
    failed = 0
    for name in names:
        wrong = tried(name)
        row(what.format(name), 1, int(bool(wrong)))
        if wrong:
            print(f"    {wrong}")
        failed += bool(wrong)
    return failed


def _run_file(folder, words):
    called([*words, "--out", folder])
    return next(pathlib.Path(folder).glob("*.jsonl"))


def _second(begun, going_on):
    """Return what is wrong with going on with a run file that another program holds open."""
    with tempfile.TemporaryDirectory(prefix="termprobe-attack-") as folder:
        path = _run_file(folder, begun)
        holder = Journal.reopen(path, SystemClock())
        before = path.read_bytes()
        outcome = called([*going_on, "--resume", str(path)])
        holder.close()
        if path.read_bytes() != before:
            return "the file was written to"
        return outcome.wrong or _unless_told(HELD, outcome)


def _unless_told(words, outcome):
    said = " ".join(outcome.complained.split())
    return "" if words in said else f"nothing was said, code {outcome.code}: {said[:200]}"


def _other(words, told):
    """Return what is wrong with going on with a run as it was not begun."""
    with tempfile.TemporaryDirectory(prefix="termprobe-attack-") as folder:
        path = _run_file(folder, BEGUN)
        kept = shutil.copy(path, f"{path}.before")
        given = ("run", "--resume", str(path), "--port", "sim:", *words)
        outcome = called(given)
        if outcome.code == 2 and pathlib.Path(kept).read_bytes() != path.read_bytes():
            return "it was refused, and the file was written to"
        return outcome.wrong or _unless_told(told, outcome)


def _in_one_second(count):
    """Return what is wrong with so many runs that are begun at once in one folder."""
    barrier, wrongs = FORKING.Barrier(count), FORKING.SimpleQueue()
    with tempfile.TemporaryDirectory(prefix="termprobe-attack-") as folder:
        words = [*BEGUN, "--out", folder]
        runs = [FORKING.Process(target=_begun, args=(words, barrier, wrongs)) for _ in range(count)]
        for run in runs:
            run.start()
        wrong = [wrongs.get() for _ in runs]
        for run in runs:
            run.join()
        paths = [*pathlib.Path(folder).glob("*.jsonl")]
        if len(paths) != count:
            wrong.append(f"{len(paths)} files of {count} runs")
        damaged = [path.name for path in paths if read(path).damages]
    return [*filter(None, wrong), *damaged]


def _begun(words, barrier, wrongs):
    """Begin a run when all others do, and tell what is wrong with it."""
    barrier.wait()
    wrongs.put(called(words).wrong)
