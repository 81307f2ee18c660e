"""Walks over keyboards: 100,000 presses in one, and keyboards of thousands of keys to their end.

Each run file is then gone on with and reported.
"""

import dataclasses
import functools
import pathlib
import tempfile
import time
from typing import NamedTuple

from helpers.key_walk_bench import PLAN, Bench
from termprobe import yamlfile
from termprobe.board.link import board_format
from termprobe.errors import EXIT_PASSED
from termprobe.journal.records import BoardUnderTest, Header
from termprobe.plan.choose import choose_stages
from termprobe.plan.compile import compile_plan
from termprobe.profile.load import parse as parse_profile
from termprobe.script.load import parse as parse_script

from .extremes import extreme_text, with_keys
from .guarded import called
from .memory import megabytes
from .tables import heading, row

USUAL = 100_000
"""Presses in one walk."""
KEYBOARDS = (1_000, 4_000)
"""Keys."""
TERMINAL, SCRIPT = "singlebyte-24x80", "keyboard"
KEYS = tuple(step.id for step in PLAN.steps if step.kind == "press")
AT_ONCE = 5
"""So many times each key is pressed between two looks at the clock."""
MOST_TIMES_FIRST = 2.0
MOST_READ_S = 120.0
"""For the file of a walk of so many presses, which would take a hand hours."""
MOST_PRESS_MS = 120.0
"""A quick hand needs so long for a key."""


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
    keyboards = dict.fromkeys(min(presses, keys) for keys in KEYBOARDS)
    failed = _pressed_again_and_again(presses)
    return failed + sum(map(_to_the_end, keyboards))


def _texts():
    """Return the texts of profile and script."""
    names = ((TERMINAL, "profiles"), (SCRIPT, "scripts"))
    return [yamlfile.read_text(yamlfile.find(name, kind)) for name, kind in names]


def _header(plan, ids, profile_text, script_text):
    header = Header(BoardUnderTest("7"), None, "", SCRIPT, plan.hash, profile_text, script_text)
    return dataclasses.replace(header, chosen=tuple(ids))


def _pressed_again_and_again(presses):
    columns = ("what", "first", "last", "failed")
    heading(f"{presses:,} presses in one walk, each key taken back and pressed again", *columns)
    with tempfile.TemporaryDirectory(prefix="termprobe-attack-") as folder:
        keys = KEYS[:presses]
        bench = Bench(pathlib.Path(folder), *keys, header=_header(PLAN, keys, *_texts()))
        rounds = _walked(bench, presses)
        bench.journal.close()
        return _told(rounds) + _read_back(bench.journal.path)


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


def _to_the_end(keys):
    """Walk over a keyboard of so many keys; print how it went, and return how much failed."""
    profile_text, script_text = extreme_text(functools.partial(with_keys, keys)), _texts()[1]
    profile = parse_profile(profile_text, "")
    plan = compile_plan(profile, parse_script(script_text, ""))
    plan = choose_stages(plan, ["keyboard"])
    heading(f"A keyboard of {keys:,} keys, {len(plan.steps):,} presses", "what", "", "", "failed")
    with tempfile.TemporaryDirectory(prefix="termprobe-attack-") as folder:
        header = _header(plan, plan.index, profile_text, script_text)
        line = board_format(profile)
        bench = Bench(pathlib.Path(folder), header=header, profile=profile, plan=plan, line=line)
        begun_s = time.process_time()
        bench.walk.walk()
        press_ms = (time.process_time() - begun_s) * 1000 / len(plan.steps)
        bench.journal.close()
        failed = int(press_ms > MOST_PRESS_MS)
        row("ms of processor a press", "", f"{press_ms:.1f}", failed)
        return failed + _read_back(bench.journal.path)


def _read_back(path):
    """Go on with the run and report it; all keys must be right. Return how much failed."""
    failed = 0
    for words in (["run", "--resume", path, "--port", "sim:"], ["report", path]):
        begun_s = time.process_time()
        outcome = called(words, most_s=MOST_READ_S)
        took_s = time.process_time() - begun_s
        is_wrong = bool(outcome.wrong) or outcome.code != EXIT_PASSED
        told = f"{took_s:.1f} {outcome.wrong or outcome.code or ''}"
        row(f"s of processor for {words[0]}", "", told, int(is_wrong))
        failed += is_wrong
    return failed
