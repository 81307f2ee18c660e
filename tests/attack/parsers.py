"""Random and mutated inputs to what reads: YAML, run files, bytes of a board, words.

Where many are tried, TMPDIR is best a folder in memory: each input is written to a file.
"""

import pathlib
import random
import tempfile
from collections import Counter
from typing import NamedTuple

from .mutated import mutant
from .readers import READERS
from .spread import numbered, spread
from .tables import Failed, failures_told, heading, row

USUAL = 2_000


class Chunk(NamedTuple):
    """Some inputs to one reader, each drawn by its own number, so that each can be drawn again."""

    reader: str
    seed: int
    numbers: range


def attack(request):
    """Give every reader its inputs, print how they fared, and return how many failed."""
    count = request.how_many(USUAL)
    heading(
        f"{count:,} random and mutated inputs to each reader",
        *("reader", "taken", "refused", "failed"),
    )
    names = [name for name in READERS if name.startswith(request.only)]
    return sum(_attack_reader(name, count, request) for name in names)


def _attack_reader(name, count, request):
    count = max(1, count // READERS[name].one_in)
    chunks = [Chunk(name, request.seed, numbers) for numbers in numbered(count)]
    endings, failures = Counter(), []
    for ended, failed in spread(tried, chunks):
        endings += ended
        failures += failed
    row(name, endings["taken"], endings["refused"], len(failures))
    failures_told(request.folder, name, failures)
    return len(failures)


def tried(chunk):
    """Return (how many inputs of `chunk` were taken and refused, those that Failed)."""
    reader, endings, failures = READERS[chunk.reader], Counter(), []
    seeds = reader.seeds()
    with tempfile.TemporaryDirectory(prefix="termprobe-attack-") as folder:
        path = pathlib.Path(folder, "attack.yaml")
        for number in chunk.numbers:
            chance = random.Random(f"{chunk.seed} {chunk.reader} {number}")
            data = mutant(chance, seeds)
            outcome = reader.give(data, path)
            if outcome.wrong:
                failures.append(Failed(number, data, outcome.wrong))
            else:
                endings["refused" if outcome.code == 2 else "taken"] += 1
    return endings, failures
