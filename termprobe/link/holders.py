"""Which programs hold a device, as far as /proc tells (Linux; without rights only the user's own programs)."""

import os


def holders(path):
    """Return `program, process NUMBER` for each other process that has `path` open, in order of process number."""
    wanted = os.path.realpath(path)
    found = []
    for number in sorted(int(name) for name in _listed("/proc") if name.isdigit()):
        if number != os.getpid() and any(
            _target(f"/proc/{number}/fd/{name}") == wanted for name in _listed(f"/proc/{number}/fd")
        ):
            found.append(f"{_program(number)}, process {number}")
    return tuple(found)


def _listed(folder):
    try:
        return os.listdir(folder)
    except OSError:
        return []


def _target(link):
    try:
        return os.readlink(link)
    except OSError:
        return None


def _program(number):
    try:
        with open(f"/proc/{number}/comm", encoding="utf-8", errors="replace") as file:
            return file.read().strip()
    except OSError:
        return "a program"
