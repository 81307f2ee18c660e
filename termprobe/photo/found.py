"""The photos of a run file, looked for beside it: whole, missing, or not what was kept."""

import hashlib
import os
import pathlib
from collections.abc import Iterable
from dataclasses import dataclass

from termprobe.journal.kept import KeptPhoto
from termprobe.journal.records import Noted, Record

NOT_BESIDE = "is not beside the run file"
ALTERED = "is not what was kept: its SHA-256 is another"
UNSAFE = "has a name that no photo beside a run file has"
MOST_BYTES_KEPT = 16_000_000
"""A copy that is said to be larger is none that was kept here."""


@dataclass(frozen=True)
class FoundPhoto:
    """A photo that a run file names."""

    kept: KeptPhoto
    trouble: str = ""
    """Why it is not shown, as `is not beside the run file`; empty where it is as it was kept."""
    picture: bytes = b""
    """As JPEG, for a page; empty where none was made."""


def photos_of(run_file: str, records: Iterable[Record]) -> tuple[FoundPhoto, ...]:
    """Return the photos that `records`, those of `run_file`, name, each name once."""
    named: dict[str, KeptPhoto] = {}
    for record in records:
        if isinstance(record, Noted) and record.photo is not None:
            named.setdefault(record.photo.name, record.photo)
    return tuple(FoundPhoto(kept, _trouble(run_file, kept)) for kept in named.values())


def beside(run_file: str, kept: KeptPhoto) -> pathlib.Path:
    """Return where the copy of a photo stands."""
    return pathlib.Path(run_file).with_name(kept.name)


def _trouble(run_file: str, kept: KeptPhoto) -> str:
    """Return what is wrong with the copy beside the run file; empty for nothing."""
    if not _is_plain(kept.name):
        return UNSAFE
    path = beside(run_file, kept)
    if not os.path.isfile(path):
        return NOT_BESIDE
    try:
        return _difference(path, kept)
    except OSError as error:
        return f"cannot be read ({error.strerror})"


def _difference(path: pathlib.Path, kept: KeptPhoto) -> str:
    size_bytes = path.stat().st_size
    if size_bytes != kept.size_bytes or size_bytes > MOST_BYTES_KEPT:
        return ALTERED
    if hashlib.sha256(path.read_bytes()).hexdigest() != kept.digest:
        return ALTERED
    return ""


def _is_plain(name: str) -> bool:
    """Return whether a name, which may come from anybody, is that of a file in the same folder."""
    return name not in ("", ".", "..") and not set(name) & set("/\\\0:")
