"""Hostile texts in files, names, bytes and what is typed: nothing acts, and nothing breaks."""

import pathlib
import random
import tempfile
from typing import NamedTuple

from . import content_of_runs, content_of_texts
from .hostile import TEXTS
from .spread import numbered, spread
from .tables import Failed, failures_told, heading, row

USUAL = 10_000
"""Tries of all ways together."""
WAYS = content_of_runs.WAYS | content_of_texts.WAYS
"""What gives a text to the program, by names; each returns (what is wrong, what it gave)."""


class Chunk(NamedTuple):
    """Some tries of one way."""

    way: str
    seed: int
    numbers: range


def attack(request):
    """Try each way, or so many of them once, print how it fared; return how many tries failed."""
    count = request.how_many(USUAL)
    heading("Hostile texts", *("where, and what is made of it", "tried", "failed"))
    ways = [*WAYS][:: max(1, len(WAYS) // count)]
    return sum(_attack(way, max(1, count // len(ways)), request) for way in ways)


def _attack(way, count, request):
    chunks = [Chunk(way, request.seed, numbers) for numbers in numbered(count)]
    failures = [one for some in spread(tried, chunks) for one in some]
    row(way, count, len(failures))
    failures_told(request.folder, way.replace("/", "-"), failures)
    return len(failures)


def tried(chunk):
    """Return those of `chunk` that Failed."""
    failures = []
    for number in chunk.numbers:
        chance = random.Random(f"{chunk.seed} {chunk.way} {number}")
        name = chance.choice([*TEXTS])
        with tempfile.TemporaryDirectory(prefix="termprobe-attack-") as folder:
            wrong, given = WAYS[chunk.way](chance, TEXTS[name], pathlib.Path(folder))
        if wrong:
            failures.append(Failed(number, given, f"{name}: {wrong}"))
    return failures
