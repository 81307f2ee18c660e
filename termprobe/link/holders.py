"""Which programs hold a device, as far as /proc tells.

Linux alone tells it, and without rights only of the user's own programs.
"""

import os


def holders(path: str) -> tuple[str, ...]:
    """Return `program, process NUMBER` for each other process that has `path` open, by number."""
    wanted = os.path.realpath(path)
    numbers = sorted(int(name) for name in _listed("/proc") if name.isdigit())
    return tuple(
        f"{_program(number)}, process {number}"
        for number in numbers
        if number != os.getpid() and _has_open(number, wanted)
    )


def _has_open(number: int, path: str) -> bool:
    folder = f"/proc/{number}/fd"
    return any(_target(f"{folder}/{name}") == path for name in _listed(folder))


def _listed(folder: str) -> list[str]:
    try:
        return os.listdir(folder)
    except OSError:
        return []


def _target(link: str) -> str | None:
    try:
        return os.readlink(link)
    except OSError:
        return None


def _program(number: int) -> str:
    try:
        with open(f"/proc/{number}/comm", encoding="utf-8", errors="replace") as file:
            return file.read().strip()
    except OSError:
        return "a program"
