"""Opens a serial port by device path or pyserial URL: every setting first, then the port, then nothing is touched."""

import contextlib
import errno
import os
import re
import stat
import struct
import sys
import warnings

from termprobe.errors import LinkMissingError, LinkSettingsError
from termprobe.link.handler import READ_LIMIT_S, WITHOUT_WRITE_LIMIT, WRITE_LIMIT_S, HandlerEnd
from termprobe.link.holders import holders
from termprobe.link.port import PortLink
from termprobe.link.trouble import FIND, OPEN, PORT_ERRORS, translated

PARITY_LETTERS = {"none": "N", "even": "E", "odd": "O", "mark": "M", "space": "S"}
SPEED_TOLERANCE = 0.02
"""A UART that samples in mid-bit fails at about twice this over a ten-bit frame."""
CONNECT_LIMIT_S = 5.0
STREAM_NOTE = (
    "carries characters, not line frames: the speed of {format} is kept by the sender alone, no parity travels, "
    "and bits that a character does not have are dropped here"
)
HANDLER_NOTE = (
    "moved by pyserial's own handler: times of arrival are coarser than those of a local port"
)


def open_port(url, format, clock, rts=True, dtr=True):
    """Return a Link to `url`, in `format`, with RTS and DTR driven as told; raise LinkError and nothing else.

    `url` is a device path or any pyserial URL. The port is ours alone until close().
    """
    _check(url, format)
    scheme = re.match(r"([A-Za-z0-9+]+)://", url)
    scheme = scheme[1].lower() if scheme else ""
    if scheme == "socket" and os.name == "posix":
        return _open_tcp(url, format, clock)
    with translated(url, FIND):
        import serial

        port = serial.serial_for_url(url, do_not_open=True)
        is_local = type(port) is serial.Serial and os.name == "posix"  # hwgrep:// gives one too
        path = os.path.realpath(port.port) if is_local else None
    is_pty = is_local and _is_pty(path)
    with translated(url, OPEN):
        _set(port, format, scheme, rts, dtr, is_plain=is_pty)
    if is_local:
        return _open_local(port, path, url, format, clock, is_pty)
    return _open_handler(port, scheme, url, format, clock)


def _check(url, format):
    wrong = [
        f"{name} must be {wanted}, not {value}"
        for name, value, wanted, is_right in (
            ("speed", format.speed_baud, "1 to 4000000 baud", 0 < format.speed_baud <= 4_000_000),
            ("data bits", format.data_bits, "5 to 8", format.data_bits in (5, 6, 7, 8)),
            (
                "parity",
                format.parity,
                "none, even, odd, mark or space",
                format.parity in PARITY_LETTERS,
            ),
            ("stop bits", format.stop_bits, "1 or 2", format.stop_bits in (1, 2)),
        )
        if not is_right
    ]
    if wrong:
        raise LinkSettingsError(f"{url}: " + "; ".join(wrong))


def _set(port, format, scheme, rts, dtr, is_plain):
    """Make every setting on the port that is still closed: each one made later would undo others (pyserial 3.5)."""
    port.baudrate = format.speed_baud
    port.bytesize = 8 if is_plain else format.data_bits
    port.parity = "N" if is_plain else PARITY_LETTERS[format.parity]
    port.stopbits = 1 if is_plain else format.stop_bits
    port.timeout = READ_LIMIT_S
    port.write_timeout = None if scheme in WITHOUT_WRITE_LIMIT else WRITE_LIMIT_S
    port.rts, port.dtr = rts, dtr
    with contextlib.suppress(NotImplementedError, ValueError):
        port.exclusive = True


def _open_tcp(url, format, clock):
    import socket

    from termprobe.link.ends import TcpEnd

    place = re.fullmatch(
        r"[a-z]+://\[?(?P<host>[^/?]+?)\]?:(?P<port>\d{1,5})/?(\?.*)?", url, re.IGNORECASE
    )
    if not place or not 0 < int(place["port"]) < 65536:
        raise LinkMissingError(
            f"{url}: a port served over TCP must read socket://HOST:NUMBER, with a number from 1 to 65535"
        )
    with translated(url, OPEN):
        end = TcpEnd(socket.create_connection((place["host"], int(place["port"])), CONNECT_LIMIT_S))
    return PortLink(end, url, format, clock, STREAM_NOTE.format(format=format))


def _open_handler(port, scheme, url, format, clock):
    with translated(url, OPEN), warnings.catch_warnings():
        warnings.simplefilter(
            "ignore", DeprecationWarning
        )  # rfc2217:// uses old names of threading
        port.open()
    end = HandlerEnd(port, scheme)
    return PortLink(
        end,
        url,
        format,
        clock,
        STREAM_NOTE.format(format=format) if end.is_stream else HANDLER_NOTE,
    )


def _open_local(port, path, url, format, clock, is_pty):
    from termprobe.link.ends import TtyEnd

    def who():
        return holders(path)

    with translated(url, OPEN, who):
        if not is_pty:
            _refuse_others(path, who)
        port.open()
    try:
        with translated(url, OPEN):
            _finish(port.fileno(), is_pty)
        refusal = None if is_pty else refused(port.fileno(), format)
        if refusal:
            raise LinkSettingsError(
                f"{url}: the port must take {format}, but {refusal}; try another adapter or format"
            )
        end = TtyEnd(port, is_stream=is_pty, has_parity=format.parity != "none")
    except BaseException:
        with contextlib.suppress(*PORT_ERRORS):
            port.close()
        raise
    return PortLink(end, url, format, clock, STREAM_NOTE.format(format=format) if is_pty else "")


def _refuse_others(path, who):
    """Raise where `path` is no terminal device, or a program holds it: one that ignores locks would take half the bytes."""
    if not stat.S_ISCHR(os.stat(path).st_mode) or not _is_terminal_device(path):
        raise OSError(errno.ENOTTY, "not a terminal device")
    if who():
        raise OSError(errno.EBUSY, "held")


def _is_terminal_device(path):
    """Return False where Linux knows that it is none; opening it to ask would move the board's control lines."""
    return not os.path.isdir("/sys/class/tty") or os.path.exists(
        f"/sys/class/tty/{os.path.basename(path)}"
    )


def _is_pty(path):
    """Return whether `path` is a pseudo-terminal: on Linux devices 136 to 143 (kernel, devices.txt), else by name."""
    try:
        number = os.stat(path).st_rdev
    except OSError:
        return False
    if sys.platform == "linux":
        return 136 <= os.major(number) <= 143
    return bool(re.fullmatch(r"/dev/(pts/\d+|tty[p-zP-T][0-9a-f]+|ttys\d+)", path))


def _finish(descriptor, is_pty):
    """Set what pyserial leaves as the last user had it, and have errors marked in the stream where there can be any."""
    import fcntl
    import termios

    settings = termios.tcgetattr(descriptor)
    settings[0] &= ~(termios.BRKINT | termios.IGNPAR | termios.IGNBRK | termios.ISTRIP)
    if (
        is_pty
    ):  # an exclusive pseudo-terminal would stay so after a crash, and shut out whoever resumes
        termios.tcsetattr(descriptor, termios.TCSANOW, settings)
        return
    fcntl.ioctl(descriptor, termios.TIOCEXCL)
    settings[0] |= termios.PARMRK | termios.INPCK
    settings[2] &= ~termios.HUPCL  # the board must not see DTR fall and rise between two runs
    termios.tcsetattr(descriptor, termios.TCSANOW, settings)


def refused(descriptor, format):
    """Return in words what the driver has silently made of the settings, or None where it took them."""
    import termios

    flags = termios.tcgetattr(descriptor)[2]
    bits = {termios.CS5: 5, termios.CS6: 6, termios.CS7: 7, termios.CS8: 8}[flags & termios.CSIZE]
    if bits != format.data_bits:
        return f"its driver makes that {bits} data bits"
    if bool(flags & termios.PARENB) != (format.parity != "none"):
        return "its driver takes no parity"
    speed_baud = _actual_speed_baud(descriptor)
    if speed_baud and abs(speed_baud / format.speed_baud - 1) > SPEED_TOLERANCE:
        return f"its driver makes that {speed_baud} baud"
    return None


def _actual_speed_baud(descriptor):
    """Return the speed that the Linux driver tells (TCGETS2, asm-generic/termbits.h), or None where it tells none."""
    import fcntl

    try:
        return struct.unpack("I", fcntl.ioctl(descriptor, 0x802C542A, bytes(44))[40:44])[0] or None
    except OSError:
        return None
