"""Adapters pulled out in the midst of a sitting and plugged in again: the answers go on."""

import pathlib
import random
import signal
import tempfile
import time
from typing import NamedTuple

from termprobe.errors import EXIT_INTERRUPTED
from termprobe.journal.reading import read
from termprobe.journal.records import Answered, Linked

from .far_ends import PtyFarEnd
from .one_stage import script_of
from .programs import trouble_of
from .ptys import OnTerminal
from .tables import Failed, failures_told, heading, row

LOOKS = 60
TYPE_S = 0.3
LONGEST_AWAY_S = 2.0
BEGUN_S, BACK_S = 30.0, 30.0
"""A machine with other work takes its time."""
HANG_S = 5.0
PROFILE = "singlebyte-24x80"


class Sitting(NamedTuple):
    """A command, and what is typed again and again."""

    words: tuple[str, ...]
    keys: tuple[bytes, ...]
    far_end: str = "swallows"


BENCH = ("--profile", PROFILE, "--board", "1", "--out", "out")
SCRIPTED = (*BENCH, "--script", "looks.yaml")
SITTINGS = {
    "session": Sitting(("session", *SCRIPTED), (b"\r", b"y")),
    "session --plain": Sitting(("session", *SCRIPTED, "--plain"), (b"\r", b"y\r")),
    "keys": Sitting(("keys", *BENCH, "--order", "free"), (b"\r",), "types"),
}


def replugged(count, request):
    """Pull and plug so often in each kind of sitting, print it; return how many did not go on."""
    heading("Pulled out and plugged in again", *("sitting", "tried", "answers behind", "failed"))
    return sum(_replugged(name, count, request) for name in SITTINGS)


def _replugged(name, count, request):
    failures, answers = [], 0
    for number in range(count):
        chance = random.Random(f"{request.seed} {name} {number}")
        with tempfile.TemporaryDirectory(prefix="termprobe-attack-") as folder:
            wrong = _tried(SITTINGS[name], chance, pathlib.Path(folder))
            answers += len(_behind(folder))
            if wrong:
                failures.append(Failed(number, b"", wrong))
    row(name, count, answers, len(failures))
    failures_told(request.folder, f"replug {name}", failures)
    return len(failures)


def _tried(sitting, chance, folder):
    """Return what is wrong with how a sitting goes on; empty where nothing is."""
    (folder / "looks.yaml").write_text(_script(), encoding="utf-8")
    far_end = PtyFarEnd(sitting.far_end, folder)
    program = OnTerminal((*sitting.words, "--port", far_end.url), folder)
    try:
        _type_until(program, sitting, BEGUN_S, lambda: _answered(folder))
        _type_until(program, sitting, chance.uniform(0, 2 * TYPE_S))
        far_end.unplug()
        _type_until(program, sitting, chance.uniform(TYPE_S, LONGEST_AWAY_S))
        far_end.plug_in()
        _type_until(program, sitting, BACK_S, lambda: _behind(folder))
        program.signal(signal.SIGINT)
        trouble = trouble_of(program.ended(HANG_S), (EXIT_INTERRUPTED,))
    finally:
        far_end.close()
    answered = [record.step for record in _answered(folder)]
    if len(set(answered)) < len(answered):
        return "a step was asked twice"
    if not _behind(folder):
        return "no answer behind the replug"
    return trouble


def _type_until(program, sitting, limit_s, is_enough=lambda: False):
    """Type for so long, or until it is enough."""
    end_s, number = time.monotonic() + limit_s, 0
    while time.monotonic() < end_s and program.process.poll() is None and not is_enough():
        program.type(sitting.keys[number % len(sitting.keys)])
        program.read(0.0)
        number += 1
        time.sleep(min(TYPE_S, max(0.0, end_s - time.monotonic())))


def _records(folder):
    """Return the records of the run file; none where there is none yet."""
    paths = pathlib.Path(folder, "out").glob("*.run.jsonl")
    return [record for path in paths for record in read(path).records]


def _answered(folder):
    return [record for record in _records(folder) if isinstance(record, Answered)]


def _behind(folder):
    """Return the answers behind the last replug."""
    behind = []
    for record in reversed(_records(folder)):
        if isinstance(record, Linked):
            return behind
        behind += [record] * isinstance(record, Answered)
    return []


def _script():
    return script_of(
        "looks",
        (
            f"id: look-{number}, kind: look, title: Number {number}, question: Is it there?, "
            f'send: [{{text: "{number}"}}]'
            for number in range(LOOKS)
        ),
    )
