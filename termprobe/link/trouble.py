"""Turns every exception that a port can throw into one family of link errors with a plain message."""

import contextlib
import errno
import os
import queue

from termprobe.errors import (
    LinkBusyError,
    LinkDeniedError,
    LinkError,
    LinkLostError,
    LinkMissingError,
    LinkSettingsError,
)
from termprobe.notation import visible

try:
    import termios

    _TERMINAL_ERROR = (termios.error,)
except ImportError:  # not a POSIX system
    _TERMINAL_ERROR = ()

PORT_ERRORS = (
    OSError,
    TypeError,
    ValueError,
    AttributeError,
    NotImplementedError,
    queue.Full,
) + _TERMINAL_ERROR
"""All that pyserial 3.5 and the calls below it were seen to throw; its SerialException is an OSError."""

FIND, OPEN, USE = "find", "open", "use"
"""When it happened: while the name was read; while settings were made and the port opened; afterwards."""

OPENING = {
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

WORDS_WITHOUT_NUMBER = {
    "FileNotFoundError": LinkMissingError,
    "PermissionError": LinkBusyError,
    "Access is denied": LinkBusyError,
}
"""Where pyserial hides the system's error in its text (Windows); there a held port reads as `access is denied`."""

ADVICE = {
    LinkMissingError: "{name}: there must be a serial port, but there is none ({why}); "
    "plug it in or start the other end, and see what `termprobe ports` lists",
    LinkBusyError: "{name}: the port must be free, but another program holds it{holder}; close that program and try again",
    LinkDeniedError: "{name}: you must be allowed to read and write the port, but you are not ({why}); "
    "on Linux try: sudo usermod -aG {group} $USER, then log out and in again",
    LinkSettingsError: "{name}: the port must take the settings of the line, but it refuses ({why}); "
    "try another speed or format (8N1), or another adapter",
    LinkLostError: "{name}: the port must stay connected, but it is gone ({why}); "
    "check plug, cable and power, then go on",
    LinkError: "{name}: the line must take bytes, but it takes no more ({why}); "
    "see that the other end is on, reads, and does not hold the line",
}


@contextlib.contextmanager
def translated(name, when=USE, holders=tuple):
    """Let nothing but a LinkError out of the block; `name` is what the user called the port.

    `holders` is called to find who holds a busy port, and returns their names.
    """
    try:
        yield
    except PORT_ERRORS as error:
        raise link_error(error, name, when, holders) from error


def link_error(error, name, when=USE, holders=tuple):
    """Return the LinkError that stands for `error`; see `translated`."""
    family = _family(error, when)
    known = holders() if family is LinkBusyError else ()
    text = ADVICE[family].format(
        name=name,
        why=_why(error),
        group=group_of(name),
        holder=f" ({' or '.join(known)})" if known else "",
    )
    return family(visible(text))


def _family(error, when):
    if when == FIND:
        return LinkMissingError
    if isinstance(error, queue.Full) or type(error).__name__ == "SerialTimeoutException":
        return LinkError
    if isinstance(error, NotImplementedError):
        return LinkSettingsError
    if when == USE:
        return LinkLostError
    number = error_number(error)
    if number is not None:
        return OPENING.get(number, LinkMissingError)
    hidden = next(
        (family for word, family in WORDS_WITHOUT_NUMBER.items() if word in str(error)), None
    )
    return hidden or (LinkMissingError if isinstance(error, OSError) else LinkSettingsError)


def error_number(error):
    """Return the system's error number, also where it is hidden below another exception, or None."""
    while error is not None:
        number = error.errno if isinstance(error, OSError) else _first_number(error)
        if number is not None and number > 0:
            return number
        error = error.__cause__ or error.__context__
    return None


def _first_number(error):
    is_terminal_error = isinstance(error, _TERMINAL_ERROR) and error.args
    return error.args[0] if is_terminal_error and isinstance(error.args[0], int) else None


def _why(error):
    number = error_number(error)
    if number is not None:
        return os.strerror(number)
    if isinstance(error, queue.Full):
        return "nothing was taken for some seconds"
    return (str(error) or type(error).__name__).split("\n")[0]


def group_of(path):
    """Return the group that owns the device, `dialout` where that cannot be told or would not help."""
    try:
        import grp

        name = grp.getgrgid(os.stat(path).st_gid).gr_name
    except (ImportError, OSError, KeyError, ValueError):
        return "dialout"
    return name if name not in ("root", "nogroup") else "dialout"
