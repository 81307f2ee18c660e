"""Many run files in short, read by all processors of this computer, and each read only once."""

import json
import os
import pathlib
import sys
import zlib
from collections.abc import Iterable, Iterator, Sequence
from functools import partial

from termprobe.cli.patience import Patience
from termprobe.cli.summarised import Summarised, begin_with, summarised
from termprobe.diagnosis.cache_folder import find, keep, key_of
from termprobe.diagnosis.processes import in_processes, leave_console, pool_of
from termprobe.errata.summary import RunSummary, UnreadRun
from termprobe.errata.summary_form import plain_summary
from termprobe.errors import UsageError
from termprobe.notation import visible

WHAT_FOR = "Reading run files"
PATTERN = "*.run.jsonl"
CHUNK = 16
"""So many files are handed to a process at a time."""
FEWEST = 32
"""Fewer files are not worth another process."""


def run_files(words: Sequence[str]) -> list[str]:
    """Return the paths of the run files that `words`, files and folders, stand for, each once.

    Raises UsageError where a folder holds none.
    """
    found: dict[str, None] = {}
    for word in words:
        if not os.path.isdir(word):
            found[word] = None
            continue
        inside = sorted(map(str, pathlib.Path(word).rglob(PATTERN)))
        if not inside:
            raise UsageError(
                f"{visible(word)}: must be a run file, or a folder that holds some "
                f"({PATTERN}, in folders of it as well); this one holds none"
            )
        found |= dict.fromkeys(inside)
    return list(found)


def summaries(paths: Sequence[str]) -> Iterator[Summarised]:
    """Yield what is known of each run file, in order: one that cannot be read is an UnreadRun.

    What was found out is kept for the next time. Where it takes longer than a moment, a line on
    standard error says how far it is.
    """
    kept_as = f"summaries-{key_of(*sorted(map(_whole, paths)))}"
    kept = _kept(kept_as)
    to_keep: dict[str, object] = {}
    patience = Patience(WHAT_FOR, sys.stderr)
    try:
        for done, one in enumerate(_read(paths, kept), 1):
            patience.told(done, len(paths))
            if isinstance(one, RunSummary):
                to_keep[one.digest] = plain_summary(one)
            yield one
    finally:
        patience.end()
    if to_keep.keys() - kept.keys():
        keep(kept_as, zlib.compress(json.dumps(to_keep).encode(), level=1))


def _kept(name: str) -> dict[str, object]:
    """Return digest of a file -> its summary as plain data, as far as it was kept."""
    try:
        kept = json.loads(zlib.decompress(find(name) or b""))
    except (ValueError, zlib.error):
        return {}
    return kept if isinstance(kept, dict) else {}


def _read(paths: Sequence[str], kept: dict[str, object]) -> Iterator[Summarised]:
    """Yield what is known of each file, in order."""
    processors = os.cpu_count() or 1
    pool = None
    if processors > 1 and len(paths) >= FEWEST:
        pool = pool_of(processors, partial(_begin, kept))
    if pool is None:
        begin_with(kept)
        yield from map(summarised, paths)
        return
    chunks = [paths[start : start + CHUNK] for start in range(0, len(paths), CHUNK)]
    for some in in_processes(pool, _all_summarised, chunks):
        yield from some


def _all_summarised(paths: Sequence[str]) -> list[Summarised]:
    return [summarised(path) for path in paths]


def _begin(kept: dict[str, object]) -> None:
    """Let this process read."""
    leave_console()
    begin_with(kept)


def _whole(path: str) -> str:
    """Return the path from the root, as far as it can be told: this folder may be gone."""
    try:
        return os.path.abspath(path)
    except OSError:
        return path


def split(found: Iterable[Summarised]) -> tuple[list[RunSummary], list[UnreadRun]]:
    """Return what was read, and what could not be."""
    read: list[RunSummary] = []
    unread: list[UnreadRun] = []
    for one in found:
        if isinstance(one, RunSummary):
            read.append(one)
        else:
            unread.append(one)
    return read, unread
