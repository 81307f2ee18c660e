"""Turns all that a port can throw into one family of link errors, each with a plain message."""

import contextlib
import errno
import os
import queue
import sys
from collections.abc import Callable, Iterator
from typing import Literal

from termprobe.errors import (
    LinkBusyError,
    LinkDeniedError,
    LinkError,
    LinkLostError,
    LinkMissingError,
    LinkSettingsError,
)
from termprobe.notation import visible

TERMINAL_ERRORS: tuple[type[Exception], ...] = ()
"""What the calls of a terminal device throw besides OSError."""
if sys.platform != "win32":
    import termios

    TERMINAL_ERRORS = (termios.error,)

PORT_ERRORS: tuple[type[Exception], ...] = (
    OSError,
    TypeError,
    ValueError,
    LookupError,
    AttributeError,
    NotImplementedError,
    queue.Full,
    *TERMINAL_ERRORS,
)
"""All that pyserial 3.5 and the calls below it were seen to throw.

Its SerialException is an OSError.
"""

When = Literal["find", "open", "use"]
"""While the name was read; while settings were made and the port opened; afterwards."""
FIND: When = "find"
OPEN: When = "open"
USE: When = "use"

OPENING: dict[int, type[LinkError]] = {
    errno.ENOENT: LinkMissingError,
    errno.ENXIO: LinkMissingError,
    errno.ENODEV: LinkMissingError,
    errno.ENOTDIR: LinkMissingError,
    errno.EISDIR: LinkMissingError,
    errno.ENOTTY: LinkMissingError,
    errno.EIO: LinkMissingError,
    errno.ELOOP: LinkMissingError,
    errno.ECONNREFUSED: LinkMissingError,
    errno.EHOSTUNREACH: LinkMissingError,
    errno.ENETUNREACH: LinkMissingError,
    errno.ETIMEDOUT: LinkMissingError,
    errno.EBUSY: LinkBusyError,
    errno.EAGAIN: LinkBusyError,
    errno.EACCES: LinkDeniedError,
    errno.EPERM: LinkDeniedError,
    errno.EROFS: LinkDeniedError,
    errno.EINVAL: LinkSettingsError,
    errno.ERANGE: LinkSettingsError,
}
"""What an error number means while a port is being opened."""

WORDS_WITHOUT_NUMBER: dict[str, type[LinkError]] = {
    "FileNotFoundError": LinkMissingError,
    "PermissionError": LinkBusyError,
    "Access is denied": LinkBusyError,
}
"""Where pyserial hides the system's error in its text (Windows).

There a held port reads as `access is denied`.
"""

ADVICE: dict[type[LinkError], str] = {
    LinkMissingError: "{name}: there must be a serial port, but there is none ({why}); "
    "plug it in or start the other end, and see what `termprobe ports` lists",
    LinkBusyError: "{name}: the port must be free, but another program holds it{holder}; "
    "close that program and try again",
    LinkDeniedError: "{name}: you must be allowed to read and write the port, "
    "but you are not ({why}); "
    "on Linux try: sudo usermod -aG {group} $USER, then log out and in again",
    LinkSettingsError: "{name}: the port must take the settings of the line, "
    "but it refuses ({why}); try another speed or format (8N1), or another adapter",
    LinkLostError: "{name}: the port must stay connected, but it is gone ({why}); "
    "check plug, cable and power, then go on",
    LinkError: "{name}: the line must take bytes, but it takes no more ({why}); "
    "see that the other end is on, reads, and does not hold the line",
}
USUAL_GROUP = "dialout"
"""The group that opens serial ports on most systems."""


def nobody() -> tuple[str, ...]:
    """Return that no program is known to hold the port."""
    return ()


@contextlib.contextmanager
def translated(
    name: str, when: When = USE, holders: Callable[[], tuple[str, ...]] = nobody
) -> Iterator[None]:
    """Let nothing but a LinkError out of the block; `name` is what the user called the port.

    `holders` is called to find who holds a busy port, and returns their names.
    """
    try:
        yield
    except PORT_ERRORS as error:
        raise link_error(error, name, when, holders) from error


def link_error(
    error: Exception,
    name: str,
    when: When = USE,
    holders: Callable[[], tuple[str, ...]] = nobody,
) -> LinkError:
    """Return the LinkError that stands for `error`; see `translated`."""
    family = _family(error, when)
    holder = ""
    if family is LinkBusyError and (known := holders()):
        holder = f" ({' or '.join(known)})"
    text = ADVICE[family].format(name=name, why=_why(error), group=group_of(name), holder=holder)
    return family(visible(text))


def _family(error: Exception, when: When) -> type[LinkError]:
    if when == FIND:
        return LinkMissingError
    if isinstance(error, queue.Full) or type(error).__name__ == "SerialTimeoutException":
        return LinkError
    if isinstance(error, NotImplementedError):
        return LinkSettingsError
    if when == USE:
        return LinkLostError
    number = _error_number(error)
    if number is not None:
        return OPENING.get(number, LinkMissingError)
    return _family_by_text(error)


def _family_by_text(error: Exception) -> type[LinkError]:
    text = str(error)
    for word, family in WORDS_WITHOUT_NUMBER.items():
        if word in text:
            return family
    return LinkMissingError if isinstance(error, OSError) else LinkSettingsError


def _error_number(error: BaseException | None) -> int | None:
    """Return the system's error number, also where it is hidden below another exception."""
    while error is not None:
        number = _own_number(error)
        if number is not None and number > 0:
            return number
        error = error.__cause__ or error.__context__
    return None


def _own_number(error: BaseException) -> int | None:
    if isinstance(error, OSError):
        return error.errno
    if isinstance(error, TERMINAL_ERRORS) and error.args and isinstance(error.args[0], int):
        return error.args[0]
    return None


def _why(error: Exception) -> str:
    if isinstance(error, queue.Full):
        return "nothing was taken for some seconds"
    number = _error_number(error)
    if number is not None:
        return os.strerror(number)
    return (str(error) or type(error).__name__).split("\n")[0]


def group_of(path: str) -> str:
    """Return the group that owns the device.

    It is `dialout` where that cannot be told or would not help.
    """
    if sys.platform == "win32":
        return USUAL_GROUP
    import grp  # POSIX alone has it

    try:
        name = grp.getgrgid(os.stat(path).st_gid).gr_name
    except (OSError, KeyError, ValueError):
        return USUAL_GROUP
    return USUAL_GROUP if name in ("root", "nogroup") else name
