"""What takes long to work out is kept in the user's cache folder.

This is the one file here that touches the disk. Whatever is wrong with the folder or a file in it,
nothing is found then, and nothing is kept.
"""

import contextlib
import functools
import hashlib
import os
import pathlib
import tempfile

from termprobe import __version__

DIGEST_BYTES = 32
"""The SHA-256 of what is kept stands before it."""
MOST_FILES = 60
"""Beyond so many, those are thrown away that have not been found for the longest time."""
WORKED_OUT_BY = (
    "board",
    "diagnosis",
    "errata",
    "journal",
    "link",
    "plan",
    "profile",
    "terminal",
    "verdict",
)
"""The folders of this program on whose code depends what is kept."""


def key_of(*parts: str) -> str:
    """Return the name under which is kept what follows from `parts` and this program's code."""
    told = hashlib.sha256(__version__.encode())
    told.update(_code_digest())
    for part in parts:
        told.update(hashlib.sha256(part.encode()).digest())
    return told.hexdigest()


def find(name: str) -> bytes | None:
    """Return what is kept under `name`, None where there is nothing whole."""
    path = _folder() / name
    try:
        content = path.read_bytes()
    except OSError:
        return None
    _note_use(path)
    digest, data = content[:DIGEST_BYTES], content[DIGEST_BYTES:]
    return data if hashlib.sha256(data).digest() == digest else None


def keep(name: str, data: bytes) -> None:
    """Keep `data` under `name`, where that can be done; others see all of it or nothing."""
    with contextlib.suppress(OSError):
        folder = _folder()
        folder.mkdir(parents=True, exist_ok=True)
        _write_at_once(folder / name, hashlib.sha256(data).digest() + data)
        _throw_oldest_away(folder)


def _folder() -> pathlib.Path:
    home = os.environ.get("XDG_CACHE_HOME") or os.path.join(os.path.expanduser("~"), ".cache")
    return pathlib.Path(home) / "termprobe"


def _write_at_once(path: pathlib.Path, content: bytes) -> None:
    descriptor, unfinished = tempfile.mkstemp(dir=path.parent, prefix="unfinished-")
    try:
        with open(descriptor, "wb") as file:
            file.write(content)
        os.replace(unfinished, path)
    except BaseException:
        os.unlink(unfinished)
        raise


def _note_use(path: pathlib.Path) -> None:
    """Let the file at `path` be the newest, where that can be done."""
    with contextlib.suppress(OSError):
        os.utime(path)


def _throw_oldest_away(folder: pathlib.Path) -> None:
    files = sorted(folder.iterdir(), key=lambda path: path.stat().st_mtime, reverse=True)
    for path in files[MOST_FILES:]:
        path.unlink()


@functools.cache
def _code_digest() -> bytes:
    """Return a digest of the code by which what is kept was worked out."""
    package = pathlib.Path(__file__).resolve().parents[1]
    told = hashlib.sha256()
    for folder in WORKED_OUT_BY:
        for path in sorted((package / folder).rglob("*.py")):
            told.update(hashlib.sha256(path.read_bytes()).digest())
    return told.digest()
