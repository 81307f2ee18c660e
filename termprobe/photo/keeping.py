"""Takes a photo in: a smaller copy with nothing but its pixels, beside the run file."""

import contextlib
import hashlib
import os
import pathlib
from typing import BinaryIO

from termprobe.errors import FileError
from termprobe.journal.file import RUN_SUFFIX
from termprobe.journal.kept import KeptPhoto
from termprobe.photo.picture import PictureError, kept_picture

MOST_BYTES_TAKEN = 64_000_000
MOST_OF_ONE_RUN = 10_000
"""Names that are tried for the copy."""


def keep_photo(path: str, run_file: str) -> KeptPhoto:
    """Put a copy of the picture at `path` beside `run_file`; return what its record says.

    Raises FileError where it is no picture that can be taken, or the copy cannot be written.
    """
    wanted = os.path.expanduser(path)
    try:
        picture = kept_picture(_bytes_of(wanted))
    except PictureError as error:
        raise FileError([f"{path}: {error}"]) from None
    name = _written(picture.data, pathlib.Path(run_file))
    digest = hashlib.sha256(picture.data).hexdigest()
    return KeptPhoto(name, digest, len(picture.data), picture.width, picture.height)


def forget_photo(kept: KeptPhoto, run_file: str) -> None:
    """Remove a copy that no record will name."""
    with contextlib.suppress(OSError):
        pathlib.Path(run_file).with_name(kept.name).unlink()


def _bytes_of(path: str) -> bytes:
    """Return the bytes of the file at `path`; raise PictureError where it is none."""
    if not os.path.isfile(path):
        raise PictureError("must be a picture, and there is no such file")
    try:
        with open(path, "rb") as file:
            data = file.read(MOST_BYTES_TAKEN + 1)
    except OSError as error:
        raise PictureError(f"must be a picture that can be read ({error.strerror})") from None
    if len(data) > MOST_BYTES_TAKEN:
        million = MOST_BYTES_TAKEN // 1_000_000
        raise PictureError(f"must be a picture of at most {million} MB, not more; save it smaller")
    return data


def _written(data: bytes, run_file: pathlib.Path) -> str:
    """Write `data` to a new file beside `run_file`; return its name."""
    name = run_file.name
    try:
        file, name = _new_file(run_file)
        with file:
            file.write(data)
            file.flush()
            os.fsync(file.fileno())
    except OSError as error:
        beside = run_file.with_name(name)
        words = f"the copy of the photo must be writable ({error.strerror})"
        raise FileError([f"{beside}: {words}; make room, or mend the folder"]) from None
    return name


def _new_file(run_file: pathlib.Path) -> tuple[BinaryIO, str]:
    """Return a file that is new, open for writing, and its name."""
    stem = run_file.name.removesuffix(RUN_SUFFIX)
    for number in range(1, MOST_OF_ONE_RUN):
        name = f"{stem}-photo-{number}.jpg"
        with contextlib.suppress(FileExistsError):
            return open(run_file.with_name(name), "xb"), name
    raise OSError(0, "too many photos of one run")
