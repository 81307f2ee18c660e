"""Folders that take little or nothing: full, nearly full, read-only, missing, no folders at all."""

import contextlib
import os
import pathlib
import subprocess

SMALL_DISK = 256 * 1024
PAGE = 4096
FILLING = "filling"


@contextlib.contextmanager
def disk(folder, *options):
    """For the time of the block let `folder` be a small disk, where we may mount one.

    Yield whether it is.
    """
    os.makedirs(folder, exist_ok=True)
    given = ",".join((f"size={SMALL_DISK}", *options))
    done = subprocess.run(
        ["mount", "-t", "tmpfs", "-o", given, "none", folder], capture_output=True, check=False
    )
    try:
        yield done.returncode == 0
    finally:
        if done.returncode == 0:
            subprocess.run(["umount", "-l", folder], check=True)


def fill(folder, pages_left):
    """Fill a small disk until so many pages are left."""
    with open(pathlib.Path(folder, FILLING), "wb", buffering=0) as file:
        with contextlib.suppress(OSError):
            while file.write(bytes(PAGE)):
                pass
        file.truncate(max(0, file.tell() - pages_left * PAGE))


@contextlib.contextmanager
def nearly_full(folder, chance):
    """Yield a limit for the shell, and a folder with a few pages left."""
    with disk(folder) as is_disk:
        pages = chance.randrange(12)
        if is_disk:
            fill(folder, pages)
        yield ("" if is_disk else f"ulimit -f {pages * PAGE // 1024}"), folder


@contextlib.contextmanager
def full(folder, _):
    with disk(folder) as is_disk:
        if is_disk:
            fill(folder, 0)
        yield ("" if is_disk else "ulimit -f 0"), folder


@contextlib.contextmanager
def files_limited(folder, chance):
    os.makedirs(folder)
    yield f"ulimit -f {chance.choice((0, 1, 2, 4, 8, 16, 32, 64))}", folder


@contextlib.contextmanager
def read_only(folder, _):
    with disk(folder, "ro") as is_disk:
        if not is_disk:
            os.chmod(folder, 0o555)
        yield "", folder


@contextlib.contextmanager
def missing(folder, _):
    yield "", os.path.join(folder, "not", "there")


@contextlib.contextmanager
def under_a_file(folder, _):
    pathlib.Path(folder).write_text("a file")
    yield "", os.path.join(folder, "x")


@contextlib.contextmanager
def no_disk_at_all(*_):
    yield "", "/proc/here"


@contextlib.contextmanager
def full_device(*_):
    yield "", "/dev/full"


@contextlib.contextmanager
def gone(folder, _):
    os.makedirs(folder)
    yield f"cd {folder} && rmdir {folder}", "."


FOLDERS = {
    "disk nearly full": nearly_full,
    "disk full": full,
    "files limited": files_limited,
    "read-only disk": read_only,
    "missing folder": missing,
    "file for a folder": under_a_file,
    "no disk": no_disk_at_all,
    "/dev/full": full_device,
    "this folder removed": gone,
}
"""Name of each: a function of (a path that is free, chance) with what the shell does before."""
