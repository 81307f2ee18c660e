"""Lists the serial ports of this computer, and says of each what stands in the way of using it.

It opens none of them.
"""

from __future__ import annotations

import os
import pathlib
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from typing import TYPE_CHECKING, NamedTuple

from termprobe.link.adapters import Adapter, adapter_of
from termprobe.link.holders import holders
from termprobe.link.trouble import group_of

if TYPE_CHECKING:
    from serial.tools.list_ports_common import ListPortInfo

READY, DENIED, BUSY, NO_DRIVER = "ready", "denied", "busy", "no-driver"
HINTS = {
    READY: "",
    DENIED: "not yours to open: sudo usermod -aG {by} $USER, then log out and in again",
    BUSY: "in use by {by}: close that program",
    NO_DRIVER: "plugged in, but makes no port: try sudo modprobe {by}",
}
"""What to do, in one line; `by` as in PortInfo."""
USB_FOLDER = pathlib.Path("/sys/bus/usb/devices")


@dataclass(frozen=True)
class PortInfo:
    """One port, or an adapter that gave none."""

    path: str
    """What --port takes; empty where the adapter has no driver."""
    name: str
    """What the system calls it."""
    adapter: str
    """The chip, where it is a known one; else what it says of itself, or empty."""
    hint: str
    """What to do before it can be used, or what the chip cannot do; may be empty."""
    state: str = READY
    """ready, denied, busy or no-driver."""
    by: str = ""
    """What stands in the way: the group to join, the program that holds it, the missing driver."""


class _IdleAdapter(NamedTuple):
    """A known adapter that is plugged in."""

    location: str
    """On the USB: `1-4`."""
    chip: Adapter


def ports(
    found: Iterable[ListPortInfo] | None = None, usb_folder: pathlib.Path = USB_FOLDER
) -> tuple[PortInfo, ...]:
    """Return a PortInfo for each serial port, then for each known adapter without one.

    `found` are pyserial's descriptions of ports; by default those of this computer.
    """
    if found is None:
        from serial.tools.list_ports import comports  # not before it is needed: it is slow to load

        found = comports()
    listed = sorted(found, key=lambda port: (port.vid is None, port.device))
    taken = {_usb_location(port) for port in listed}
    idle = [one for one in _plugged_in(usb_folder) if one.location not in taken]
    return (*map(_describe, listed), *map(_describe_idle, idle))


def _usb_location(port: ListPortInfo) -> str:
    """Return where on the USB it is, without the interface: `1-4` of `1-4:1.0`."""
    return (port.location or "").split(":")[0]


def _describe(port: ListPortInfo) -> PortInfo:
    chip = adapter_of(port.vid, port.pid)
    adapter, limits = _own_words(port), ""
    if chip:
        adapter, limits = chip.name, chip.limits
    name = port.description
    if name in (None, "n/a"):
        name = port.device
    state, by = _obstacle(port.device)
    hint = HINTS[state].format(by=by) or limits
    return PortInfo(port.device, name, adapter, hint, state, by)


def _own_words(port: ListPortInfo) -> str:
    if port.vid is None:
        return ""
    said = " ".join(word for word in (port.manufacturer, port.product) if word)
    return f"{said or 'unknown chip'} (USB {port.vid:04X}:{port.pid:04X})"


def _obstacle(path: str) -> tuple[str, str]:
    """Return (state, what stands in the way).

    Only a POSIX system tells before the port is opened.
    """
    if os.name == "posix" and os.path.exists(path) and not os.access(path, os.R_OK | os.W_OK):
        return DENIED, group_of(path)
    held = holders(path)
    if held:
        return BUSY, held[0]
    return READY, ""


def _plugged_in(usb_folder: pathlib.Path) -> Iterator[_IdleAdapter]:
    """Yield every known adapter that is plugged in (Linux)."""
    for folder in sorted(usb_folder.glob("*")):
        try:
            chip = adapter_of(_number_in(folder / "idVendor"), _number_in(folder / "idProduct"))
        except (OSError, ValueError):
            continue
        if chip:
            yield _IdleAdapter(folder.name, chip)


def _number_in(path: pathlib.Path) -> int:
    return int(path.read_text(), 16)


def _describe_idle(idle: _IdleAdapter) -> PortInfo:
    chip = idle.chip
    hint = HINTS[NO_DRIVER].format(by=chip.driver)
    return PortInfo("", f"USB {idle.location}", chip.name, hint, NO_DRIVER, chip.driver)
