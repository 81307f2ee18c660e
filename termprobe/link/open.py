"""Opens a serial port by device path or pyserial URL.

Every setting is made first, then the port is opened, then nothing is touched.
"""

import contextlib
import os
import re
import warnings

import serial

from termprobe.clock import Clock
from termprobe.link.base import LineFormat, unable
from termprobe.link.end import End
from termprobe.link.handler import READ_LIMIT_S, HandlerEnd, write_limit_s
from termprobe.link.local import is_pty, open_device
from termprobe.link.port import PortLink
from termprobe.link.settings import line_settings, refuse_impossible
from termprobe.link.tcp import connect
from termprobe.link.trouble import FIND, OPEN, translated

STREAM_NOTE = (
    "carries characters, not line frames: the speed of {format} is kept by the sender alone, "
    "no parity travels, and bits that a character does not have are dropped here"
)
EXTRAS = ("marks", "counters")
"""What drivers of Linux give, and others do not; a run says where it was missing."""
HANDLER_NOTE = (
    "moved by pyserial's own handler: times of arrival are coarser than those of a local port"
)


def open_port(
    url: str, format: LineFormat, clock: Clock, rts: bool = True, dtr: bool = True
) -> PortLink:
    """Return a Link to `url`, in `format`, with RTS and DTR driven as told; raise LinkError alone.

    `url` is a device path or any pyserial URL. The port is ours alone until close().
    """
    refuse_impossible(url, format)
    scheme = _scheme_of(url)
    if scheme == "socket" and os.name == "posix":
        return _linked(connect(url), url, format, clock)
    with translated(url, FIND):
        port = serial.serial_for_url(url, do_not_open=True)
        path = _device_path(port)
    with translated(url, OPEN):
        _set_line(port, _frame(path, format))
        _set_manners(port, scheme, rts, dtr)
    if path:
        return _linked(open_device(port, path, url, format), url, format, clock)
    return _linked(_open_handler(port, scheme, url), url, format, clock, HANDLER_NOTE)


def _linked(end: End, url: str, format: LineFormat, clock: Clock, note: str = "") -> PortLink:
    with translated(url, OPEN):
        notes = [note, unable(end.abilities, EXTRAS)]
    if end.is_stream:
        notes = [STREAM_NOTE.format(format=format)]
    return PortLink(end, url, format, clock, "; ".join(filter(None, notes)))


def _scheme_of(url: str) -> str:
    """Return the word before `://` in small letters, empty for a path."""
    named = re.match(r"([A-Za-z0-9+]+)://", url)
    return named[1].lower() if named else ""


def _device_path(port: serial.Serial) -> str:
    """Return where the device of a local port stands (POSIX); empty for any other port."""
    is_local = type(port) is serial.Serial and os.name == "posix"  # hwgrep:// gives one too
    return os.path.realpath(port.port or "") if is_local else ""


def _frame(path: str, format: LineFormat) -> LineFormat:
    """Return the frame to set: a pseudo-terminal has no line, and takes eight bits alone."""
    return LineFormat(format.speed_baud) if path and is_pty(path) else format


def _set_line(port: serial.Serial, format: LineFormat) -> None:
    """Set speed and frame of a port that is still closed.

    Each setting made later would undo others (pyserial 3.5).
    """
    port.apply_settings(line_settings(format))


def _set_manners(port: serial.Serial, scheme: str, rts: bool, dtr: bool) -> None:
    """Set, on a port that is still closed, how long it may wait and what it drives."""
    port.timeout = READ_LIMIT_S
    port.write_timeout = write_limit_s(scheme)
    port.rts, port.dtr = rts, dtr
    with contextlib.suppress(NotImplementedError, ValueError):
        port.exclusive = True


def _open_handler(port: serial.Serial, scheme: str, url: str) -> HandlerEnd:
    with translated(url, OPEN), warnings.catch_warnings():
        # rfc2217:// uses old names of threading
        warnings.simplefilter("ignore", DeprecationWarning)
        port.open()
    return HandlerEnd(port, scheme)
