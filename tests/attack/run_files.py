"""Run files cut at a byte, or with one byte damaged: what is whole is kept, nothing turns good."""

import functools
import pathlib
import random
import tempfile
from typing import NamedTuple

from helpers.paths import RUN_FILES
from termprobe.cli.recorded import load_run
from termprobe.errors import FileError
from termprobe.journal.lost import LostRecords
from termprobe.journal.reading import parse

from .spread import numbered, spread
from .tables import Failed, failures_told, heading, row

USUAL = 4_000


class Chunk(NamedTuple):
    """Some damages of one kind to one run file."""

    damage: str
    file: str
    seed: int
    numbers: range


def attack(request):
    """Damage each of the run files that are kept, print how they fared; return how many failed."""
    count = request.how_many(USUAL)
    heading("Damaged run files", *("file", "damage", "tried", "failed"))
    paths = sorted(RUN_FILES.glob("*.jsonl"))
    return sum(_attack_file(path, kind, count, request) for path in paths for kind in DAMAGES)


def _attack_file(path, damage, count, request):
    chunks = [Chunk(damage, str(path), request.seed, numbers) for numbers in numbered(count)]
    failures = [one for some in spread(damaged, chunks) for one in some]
    row(path.name, damage, count, len(failures))
    failures_told(request.folder, f"{damage} {path.stem}", failures)
    return len(failures)


def damaged(chunk):
    """Return those of `chunk` that Failed."""
    data, failures = pathlib.Path(chunk.file).read_bytes(), []
    with tempfile.TemporaryDirectory(prefix="termprobe-attack-") as folder:
        path = pathlib.Path(folder, "attack.run.jsonl")
        for number in chunk.numbers:
            chance = random.Random(f"{chunk.seed} {chunk.damage} {number}")
            wrong, given = DAMAGES[chunk.damage](chance, data, path)
            if wrong:
                failures.append(Failed(number, given, wrong))
    return failures


def _cut(chance, data, path):
    """Each record whose line is whole is read as it was."""
    given = data[: chance.randrange(len(data))]
    whole = given[: given.rfind(b"\n") + 1]
    was = _whole_records(whole)
    if not _whole_records(given)[: len(was)] == was == _whole_records(data)[: len(was)]:
        return "a whole record is not as it was", given
    return _turned_good(path, data, given), given


def _flipped(chance, data, path):
    """One byte damaged is noticed."""
    index = chance.randrange(len(data))
    given = data[:index] + bytes([data[index] ^ chance.randint(1, 255)]) + data[index + 1 :]
    found = parse(given)
    if found.records == _records(data) and not found.damages:
        return f"byte {index} is damaged, and nothing was noticed", given
    return _turned_good(path, data, given), given


DAMAGES = {"cut": _cut, "one byte": _flipped}


def _whole_records(data):
    """Return the records but for what stands in the place of lost ones."""
    return [one for one in parse(data).records if not isinstance(one, LostRecords)]


@functools.cache
def _records(data):
    return parse(data).records


def _turned_good(path, data, given):
    """Return what is wrong with the verdict of a damaged file; empty where nothing is."""
    verdict = _verdict(path, given)
    if verdict == "pass" and _verdict(path, data) != "pass":
        return "the run passes now"
    return ""


def _verdict(path, data):
    path.write_bytes(data)
    try:
        return load_run(path).verdict.verdict
    except FileError:
        return None
