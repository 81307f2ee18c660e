"""Every exception that a port was seen to throw becomes the right family of link error.

Each has a plain message of one line.
"""

import errno
import queue
import termios

import pytest
import serial

from termprobe.errors import (
    LinkBusyError,
    LinkDeniedError,
    LinkError,
    LinkLostError,
    LinkMissingError,
    LinkSettingsError,
)
from termprobe.link.trouble import FIND, OPEN, USE, translated


def hidden(outer, inner):
    """pyserial raises its own exception while it handles the system's, and keeps only the text."""
    try:
        try:
            raise inner
        except type(inner):
            raise outer from None
    except type(outer) as error:
        return error


CASES = [
    (FIND, ValueError("invalid URL, protocol 'x' not known"), LinkMissingError),
    (FIND, KeyError("debug|info|warning|error"), LinkMissingError),
    (FIND, serial.SerialException("no ports found matching regexp 'x'"), LinkMissingError),
    (OPEN, serial.SerialException(errno.ENOENT, "could not open port"), LinkMissingError),
    (OPEN, serial.SerialException(errno.ENXIO, "could not open port"), LinkMissingError),
    (OPEN, serial.SerialException(errno.EIO, "could not open port"), LinkMissingError),
    (OPEN, serial.SerialException(errno.EACCES, "could not open port"), LinkDeniedError),
    (OPEN, serial.SerialException(errno.EPERM, "could not open port"), LinkDeniedError),
    (OPEN, serial.SerialException(errno.EBUSY, "could not open port"), LinkBusyError),
    (OPEN, serial.SerialException(errno.EAGAIN, "Could not exclusively lock port"), LinkBusyError),
    (
        OPEN,
        hidden(
            serial.SerialException("Could not configure port"), termios.error(errno.ENOTTY, "x")
        ),
        LinkMissingError,
    ),
    (
        OPEN,
        hidden(
            serial.SerialException("Could not open port"),
            ConnectionRefusedError(errno.ECONNREFUSED, "x"),
        ),
        LinkMissingError,
    ),
    (OPEN, termios.error(errno.EINVAL, "Invalid argument"), LinkSettingsError),
    (OPEN, ValueError("Not a valid baudrate: -1"), LinkSettingsError),
    (OPEN, ValueError("Failed to set custom baud rate (x)"), LinkSettingsError),
    (OPEN, NotImplementedError("write_timeout is currently not supported"), LinkSettingsError),
    (OPEN, TypeError("an integer is required"), LinkSettingsError),
    (OPEN, OSError(errno.EINVAL, "Invalid argument"), LinkSettingsError),
    (OPEN, TimeoutError("timed out"), LinkMissingError),
    (
        OPEN,
        serial.SerialException("could not open port 'COM9': FileNotFoundError(2, 'x', None, 2)"),
        LinkMissingError,
    ),
    (
        OPEN,
        serial.SerialException(
            "could not open port 'COM3': PermissionError(13, 'Access is denied.', None, 5)"
        ),
        LinkBusyError,
    ),
    (
        USE,
        serial.SerialException("device reports readiness to read but returned no data"),
        LinkLostError,
    ),
    (USE, serial.SerialException("write failed: [Errno 5] Input/output error"), LinkLostError),
    (USE, serial.PortNotOpenError(), LinkLostError),
    (USE, OSError(errno.EIO, "Input/output error"), LinkLostError),
    (USE, OSError(errno.EBADF, "Bad file descriptor"), LinkLostError),
    (USE, ConnectionResetError(errno.ECONNRESET, "reset"), LinkLostError),
    (USE, BrokenPipeError(errno.EPIPE, "broken"), LinkLostError),
    (USE, TimeoutError(errno.ETIMEDOUT, "timed out"), LinkLostError),
    (USE, termios.error(errno.EIO, "Input/output error"), LinkLostError),
    (USE, TypeError("'NoneType' object cannot be interpreted as an integer"), LinkLostError),
    (USE, AttributeError("'NoneType' object has no attribute 'recv'"), LinkLostError),
    (USE, ValueError("file descriptor cannot be a negative integer (-1)"), LinkLostError),
    (USE, NotImplementedError("no such line"), LinkSettingsError),
    (USE, queue.Full(), LinkError),
    (USE, serial.SerialTimeoutException("Write timeout"), LinkError),
]


@pytest.mark.parametrize(
    "when, error, family", CASES, ids=lambda value: str(getattr(value, "__name__", value))[:50]
)
def test_each_exception_has_its_family(when, error, family):
    with pytest.raises(LinkError) as caught, translated("/dev/ttyX9", when):
        raise error
    assert type(caught.value) is family
    text = str(caught.value)
    assert text.startswith("/dev/ttyX9: ") and "\n" not in text
    assert "must" in text and ";" in text, "what must be, and what to try"
    assert caught.value.exit_code == 3
    assert caught.value.__cause__ is error


def test_a_line_that_takes_nothing_is_told_by_that_and_not_by_the_last_try():
    with pytest.raises(LinkError, match="nothing was taken for some seconds"), translated("x"):
        try:
            raise BlockingIOError(errno.EAGAIN, "Resource temporarily unavailable")
        except BlockingIOError:
            raise queue.Full from None


def test_a_hostile_name_and_text_reach_the_console_as_printable_characters():
    with pytest.raises(LinkError) as caught, translated("/dev/\x1b[2J", OPEN):
        raise ValueError("\x07\x9b2J")
    assert str(caught.value).isprintable()


def test_what_is_no_failure_of_the_port_is_let_through():
    for error in (KeyboardInterrupt(), ZeroDivisionError(), LinkLostError("x")):
        with pytest.raises(type(error)) as caught, translated("x"):
            raise error
        assert caught.value is error


def test_a_busy_port_names_who_holds_it_and_asks_only_then():
    asked = []
    with (
        pytest.raises(LinkBusyError, match="listener, process 7"),
        translated("x", OPEN, lambda: ("listener, process 7",)),
    ):
        raise OSError(errno.EBUSY, "busy")
    with pytest.raises(LinkMissingError), translated("x", OPEN, lambda: asked.append(1)):
        raise OSError(errno.ENOENT, "none")
    assert not asked
