"""One walk over a keyboard, each key taken back and pressed again: memory, file, time for a press.

Its run file is then reported and gone on with.
"""

import dataclasses
import pathlib
import tempfile
import time
from typing import NamedTuple

from helpers.key_walk_bench import PLAN, Bench
from termprobe import yamlfile
from termprobe.errors import EXIT_PASSED
from termprobe.journal.records import BoardUnderTest, Header

from .guarded import called
from .memory import megabytes
from .tables import heading, row

USUAL = 100_000
"""Presses."""
TERMINAL, SCRIPT = "singlebyte-24x80", "keyboard"
KEYS = tuple(step.id for step in PLAN.steps if step.kind == "press")
AT_ONCE = 5
"""So many times each key is pressed between two looks at the clock."""
MOST_TIMES_FIRST = 2.0
MOST_READ_S = 120.0
"""For the file of a walk of so many presses, which would take a hand hours."""


class Round(NamedTuple):
    """Some presses."""

    press_ms: float
    """Of processor time, each."""
    megabytes: float
    press_bytes: float
    """What each adds to the run file."""


def attack(request):
    """Press so often, print what it took at the beginning and at the end; return what failed."""
    presses = request.how_many(USUAL)
    columns = ("what", "first", "last", "failed")
    heading(f"{presses:,} presses in one walk, each key taken back and pressed again", *columns)
    with tempfile.TemporaryDirectory(prefix="termprobe-attack-") as folder:
        keys = KEYS[:presses]
        bench = Bench(pathlib.Path(folder), *keys, header=_header(keys))
        rounds = _walked(bench, presses)
        bench.journal.close()
        return _told(rounds) + _read_back(bench.journal.path)


def _header(keys):
    texts = [
        yamlfile.read_text(yamlfile.find(name, kind))
        for name, kind in ((TERMINAL, "profiles"), (SCRIPT, "scripts"))
    ]
    header = Header(BoardUnderTest("7"), None, TERMINAL, SCRIPT, PLAN.hash, *texts)
    return dataclasses.replace(header, chosen=keys)


def _walked(bench, presses):
    """Return the Rounds of a walk; at its end every key stands pressed."""
    steps = bench.run.plan.steps
    rounds, pressed = [], 0
    path = pathlib.Path(bench.journal.path)
    while pressed < presses:
        begun_s, begun_bytes = time.process_time(), path.stat().st_size
        for _ in range(AT_ONCE):
            for step in steps * bool(pressed):
                bench.run.take_back(step)
            bench.walk.walk()
            bench.events.clear()
            pressed += len(steps)
        of_round = AT_ONCE * len(steps)
        press_ms = (time.process_time() - begun_s) * 1000 / of_round
        press_bytes = (path.stat().st_size - begun_bytes) / of_round
        rounds.append(Round(press_ms, megabytes(), press_bytes))
    return rounds


def _told(rounds):
    """Print what presses took; return 1 where the last ones took longer than the first, else 0."""
    first, last = rounds[0], rounds[-1]
    failed = int(last.press_ms > MOST_TIMES_FIRST * first.press_ms)
    row("ms of processor a press", f"{first.press_ms:.2f}", f"{last.press_ms:.2f}", failed)
    row("bytes of file a press", f"{first.press_bytes:.0f}", f"{last.press_bytes:.0f}", 0)
    row("MB of memory", f"{first.megabytes:.0f}", f"{last.megabytes:.0f}", 0)
    return failed


def _read_back(path):
    """Report the run and go on with it, which must find all keys right; return how much failed."""
    failed = 0
    for words in (["run", "--resume", path, "--port", "sim:"], ["report", path]):
        begun_s = time.process_time()
        outcome = called(words, most_s=MOST_READ_S)
        took_s = time.process_time() - begun_s
        is_wrong = bool(outcome.wrong) or outcome.code != EXIT_PASSED
        row(f"s of processor for {words[0]}", "", f"{took_s:.1f} {outcome.wrong}", int(is_wrong))
        failed += is_wrong
    return failed
