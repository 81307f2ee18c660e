"""Lists the serial ports of this computer, and says of each what stands in the way of using it. Opens none of them."""

import os
import pathlib
from dataclasses import dataclass

from termprobe.link.adapters import adapter_of
from termprobe.link.holders import holders
from termprobe.link.trouble import group_of

READY, DENIED, BUSY, NO_DRIVER = "ready", "denied", "busy", "no-driver"
HINTS = {
    READY: "",
    DENIED: "not yours to open: sudo usermod -aG {by} $USER, then log out and in again",
    BUSY: "in use by {by}: close that program",
    NO_DRIVER: "plugged in, but makes no port: try sudo modprobe {by}",
}
"""What to do, in one line; `by` as in PortInfo."""
USB_FOLDER = "/sys/bus/usb/devices"


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
    """What stands in the way: the group to join, the program that holds the port, the driver that is missing."""


def ports(found=None, usb_folder=USB_FOLDER):
    """Return a PortInfo for each serial port, then for each known adapter without one.

    `found` are pyserial's descriptions of ports; by default those of this computer.
    """
    if found is None:
        from serial.tools.list_ports import comports

        found = comports()
    found = sorted(found, key=lambda port: (port.vid is None, port.device))
    taken = {_usb_place(port) for port in found}
    return tuple(_describe(port) for port in found) + tuple(
        adapter for place, adapter in _idle_adapters(usb_folder) if place not in taken
    )


def _usb_place(port):
    """Return the USB place without the interface: `1-4` of `1-4:1.0`."""
    return (getattr(port, "location", None) or "").split(":")[0]


def _describe(port):
    chip = adapter_of(port.vid, port.pid)
    adapter = chip.name if chip else _own_words(port)
    name = port.description if port.description not in (None, "n/a") else port.device
    state, by = _obstacle(port.device)
    hint = HINTS[state].format(by=by) or (chip.limits if chip else "")
    return PortInfo(port.device, name, adapter, hint, state, by)


def _own_words(port):
    if port.vid is None:
        return ""
    said = " ".join(word for word in (port.manufacturer, port.product) if word)
    return f"{said or 'unknown chip'} (USB {port.vid:04X}:{port.pid:04X})"


def _obstacle(path):
    """Return (state, what stands in the way); only a POSIX system tells before the port is opened."""
    if os.name == "posix" and os.path.exists(path) and not os.access(path, os.R_OK | os.W_OK):
        return DENIED, group_of(path)
    held = holders(path)
    return (BUSY, held[0]) if held else (READY, "")


def _idle_adapters(usb_folder):
    """Yield (USB place, PortInfo) of every known adapter that is plugged in (Linux)."""
    for folder in sorted(pathlib.Path(usb_folder).glob("*")):
        try:
            chip = adapter_of(
                *(int((folder / name).read_text(), 16) for name in ("idVendor", "idProduct"))
            )
        except (OSError, ValueError):
            continue
        if chip:
            hint = HINTS[NO_DRIVER].format(by=chip.driver)
            yield (
                folder.name,
                PortInfo("", f"USB {folder.name}", chip.name, hint, NO_DRIVER, chip.driver),
            )
