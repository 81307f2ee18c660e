"""Runs, sessions and walks killed at random moments, and gone on with: no answer is lost.

Each kill ends one life. Half of them fall before its first answer, while it reads its run file,
opens the line and writes its first records; the others while answers are asked for and written.
"""

import contextlib
import pathlib
import random
import tempfile
from collections import Counter

from helpers.kills import assert_kept, killed_run
from termprobe.journal.reading import read
from termprobe.journal.records import Answered

from .pace import Pace
from .tables import Failed, failures_told, heading, row
from .victims import VICTIMS

USUAL = 400
EARLY, OPENED, WRITTEN, BETWEEN = MOMENTS = (
    "before it wrote anything",
    "before its first answer",
    "an answer written, not acknowledged yet",
    "between answers",
)
"""At what a life was when it was killed."""


def attack(request):
    """Kill as often as is asked for, print how often an answer was lost; return that."""
    count = request.how_many(USUAL)
    columns = ("what", "kills", *MOMENTS, "answers acknowledged", "failed")
    heading("Killed at random moments", *columns)
    names = [name for name in VICTIMS if name.startswith(request.only)]
    return sum(_killed(name, count, request) for name in names)


def _killed(name, count, request):
    victim, pace = VICTIMS[name], Pace()
    found, wrong = Counter(), []
    for number in range(0, count, victim.kills_of_one_file):
        chance = random.Random(f"{request.seed} {name} {number}")
        with tempfile.TemporaryDirectory(prefix="termprobe-attack-") as folder:
            path = pathlib.Path(folder, "a.run.jsonl")
            kills = min(victim.kills_of_one_file, count - number)
            try:
                _kill(victim.begun(path), path, chance, kills, pace, found)
            except AssertionError as error:
                wrong.append(Failed(number, _left(path), f"a kill from here on: {error}"))
    row(name, count, *(found[moment] for moment in MOMENTS), found["answers"], len(wrong))
    failures_told(request.folder, f"kills {name}", wrong)
    return len(wrong)


def _kill(live, path, chance, kills, pace, found):
    """Kill so many lives of one run file; count in `found` at what, and what they acknowledged."""
    seen = []
    for kill in range(1, kills + 1):
        size, known = _size(path), len(_answered(path))
        told = killed_run(_from_the_beginning(live), *pace.drawn(chance), pace.hear)
        pace.end()
        seen += told
        if _is_begun(path):
            assert_kept(path, seen, kill)
        else:
            assert not seen, "an answer was acknowledged, and there is no run file"
            path.unlink(missing_ok=True)
        found["answers"] += len(told)
        found[_moment(_size(path) > size, len(_answered(path)) - known, len(told))] += 1


def _from_the_beginning(live):
    """Return what tells that it is ready before anything else."""

    def carry_out(tell):
        tell("ready")
        live(lambda name: name == "ready" or tell(name))

    return carry_out


def _moment(has_written, answers, acknowledged):
    if answers > acknowledged:
        return WRITTEN
    if acknowledged:
        return BETWEEN
    return OPENED if has_written else EARLY


def _left(path):
    """Return what stands in a file; nothing where there is none."""
    with contextlib.suppress(FileNotFoundError):
        return path.read_bytes()
    return b""


def _size(path):
    return len(_left(path))


def _is_begun(path):
    return path.exists() and read(path).header is not None


def _answered(path):
    """Return the answers in a run file; none where there is no file."""
    if not path.exists():
        return []
    return [record for record in read(path).records if isinstance(record, Answered)]
