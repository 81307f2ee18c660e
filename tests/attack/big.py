"""Files far larger than any run: a line of ten megabytes, a million records, no end at all."""

import os
import pathlib
import random
import resource
import sys
import tempfile
from typing import NamedTuple

from termprobe.cli.main import main

from .guarded import GOOD_CODES, MISTAKES
from .hostile import wrong_with_text
from .hostile_runs import line_of, run_documents, run_file
from .tables import heading, row

USUAL = 1_000_000
"""Records, or tenths of a line's bytes."""
FEWEST = 1_000
"""Where fewer are asked for, so many fewer files are tried."""
MOST_MB = 3_000
MOST_S = 200


class Ended(NamedTuple):
    """How a process ended."""

    code: int | None
    took_s: float
    megabytes: float
    told: str


def attack(request):
    """Have each large file read in a process of its own; return how many it did not survive."""
    count = request.how_many(USUAL)
    columns = ("file", "bytes", "exit code", "seconds of a processor", "MB at most", "failed")
    heading(f"Files of {count:,} records", *columns)
    with tempfile.TemporaryDirectory(prefix="termprobe-attack-") as folder:
        path = pathlib.Path(folder, "big.run.jsonl")
        names = [*FILES][:: max(1, FEWEST // count)]
        return sum(_attack(name, path, count) for name in names)


def _attack(name, path, count):
    with open(path, "wb") as file:
        for piece in FILES[name](count):
            file.write(piece)
    ended = _reported(path)
    wrong = _wrong_with(ended)
    measured = f"{ended.took_s:.1f}", f"{ended.megabytes:.0f}"
    row(name, path.stat().st_size, ended.code, *measured, int(bool(wrong)))
    if wrong:
        print(f"    {wrong}", flush=True)
    return bool(wrong)


def _wrong_with(ended):
    if ended.code not in GOOD_CODES or any(mistake in ended.told for mistake in MISTAKES):
        return f"exit code {ended.code}: {ended.told[:300]}"
    if ended.megabytes > MOST_MB or ended.took_s > MOST_S:
        return f"more than {MOST_MB} MB or {MOST_S} s"
    return wrong_with_text(ended.told)


def _reported(path):
    """Return how a report of the file ends in a process that is forked for it."""
    told = path.with_name("told")
    sys.stdout.flush()
    child = os.fork()
    if child == 0:
        os.dup2(os.open(told, os.O_WRONLY | os.O_CREAT | os.O_TRUNC), 1)
        os.dup2(1, 2)
        sys.stdout = sys.stderr = open(1, "w", encoding="utf-8", closefd=False)  # noqa: SIM115
        resource.setrlimit(resource.RLIMIT_CPU, (MOST_S, MOST_S + 1))
        code = main(["report", str(path)])
        sys.stdout.flush()
        os._exit(code)
    _, status, used = os.wait4(child, 0)
    code = os.waitstatus_to_exitcode(status)
    text = told.read_text(encoding="utf-8")
    return Ended(code, used.ru_utime + used.ru_stime, used.ru_maxrss / 1000, text)


def _records(document):
    """Return what yields a run file with so many records like `document`."""

    def pieces(count):
        documents = run_documents()
        yield run_file(documents)
        stamp = {"t": documents[-1]["t"], "at": documents[-1]["at"]}
        for number in range(len(documents), count):
            yield line_of({"seq": number, **stamp, **document})

    return pieces


def _behind(part):
    """Return what yields a run file with `part` behind it, ten times as long as it has records."""

    def pieces(count):
        yield run_file(run_documents())
        yield part * (count * 10 // len(part)) + b"\n"

    return pieces


def _long_note(count):
    documents = run_documents()
    stamp = {"t": documents[-1]["t"], "at": documents[-1]["at"], "kind": "note"}
    yield run_file([*documents, {**stamp, "text": "note " * (count * 2)}])


def _by_chance(count):
    yield run_file(run_documents())
    yield random.Random(1).randbytes(count * 10)


FILES = {
    "a note of ten megabytes": _long_note,
    "a line of nothing": _behind(b"x"),
    "a line of beginnings": _behind(b'00000000 {"'),
    "a line of brackets": _behind(b'00000000 {"a":[[[[[[[['),
    "lines of nothing": _behind(b"x\n"),
    "chance": _by_chance,
    "notes": _records({"kind": "note", "text": "so\u202e"}),
    "what came": _records({"kind": "received", "step": None, "data": "1b5b324a"}),
}
"""Each by what is large in it."""
