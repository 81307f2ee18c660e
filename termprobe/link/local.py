"""Opens a serial device of this computer (POSIX), so that it is ours alone and as asked for."""

import contextlib
import errno
import os
import re
import stat
import sys
from collections.abc import Iterator

import serial

from termprobe.errors import LinkSettingsError
from termprobe.link.base import LineFormat
from termprobe.link.end import End
from termprobe.link.holders import holders
from termprobe.link.trouble import OPEN, PORT_ERRORS, translated

TTY_CLASS = "/sys/class/tty"
PTY_MAJORS = range(136, 144)
"""Device numbers of pseudo-terminals (Linux kernel, devices.txt)."""
_PTY_NAME = re.compile(r"/dev/(pts/\d+|tty[p-zP-T][0-9a-f]+|ttys\d+)")


def is_pty(path: str) -> bool:
    """Tell whether `path` is a pseudo-terminal: on Linux by its device number, else by its name."""
    try:
        number = os.stat(path).st_rdev
    except OSError:
        return False
    if sys.platform == "linux":
        return os.major(number) in PTY_MAJORS
    else:
        return _PTY_NAME.fullmatch(path) is not None


def open_device(port: serial.Serial, path: str, url: str, format: LineFormat) -> End:
    """Return the end of the device at `path`; raise a LinkError that calls it `url`.

    `port` has the settings for it and is still closed.
    """
    from termprobe.link import tty  # POSIX alone has what it needs

    is_stream = is_pty(path)
    with translated(url, OPEN, lambda: holders(path)):
        if not is_stream:
            _refuse_others(path)
        port.open()
    with _closed_on_failure(port), translated(url, OPEN):
        if is_stream:
            tty.settle_pseudo_terminal(port.fileno())
        else:
            tty.settle_port(port.fileno())
            _require_taken(url, format, tty.refused(port.fileno(), format))
        return tty.TtyEnd(port, is_stream, format.parity != "none")


@contextlib.contextmanager
def _closed_on_failure(port: serial.Serial) -> Iterator[None]:
    try:
        yield
    except BaseException:
        with contextlib.suppress(*PORT_ERRORS):
            port.close()
        raise


def _require_taken(url: str, format: LineFormat, refusal: str) -> None:
    if refusal:
        raise LinkSettingsError(
            f"{url}: the port must take {format}, but {refusal}; try another adapter or format"
        )


def _refuse_others(path: str) -> None:
    """Raise OSError where `path` is no terminal device, or a program holds it.

    A program that ignores locks would take half the bytes.
    """
    if not stat.S_ISCHR(os.stat(path).st_mode) or not _is_terminal_device(path):
        raise OSError(errno.ENOTTY, "not a terminal device")
    if holders(path):
        raise OSError(errno.EBUSY, "held")


def _is_terminal_device(path: str) -> bool:
    """Return False where Linux knows that it is none.

    Opening it to ask would move the board's control lines.
    """
    known = os.path.join(TTY_CLASS, os.path.basename(path))
    return not os.path.isdir(TTY_CLASS) or os.path.exists(known)
