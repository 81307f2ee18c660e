"""termprobe ports: the serial ports of this computer, and what to do where one cannot be used."""

import argparse
import dataclasses
import json
from collections.abc import Iterator, Sequence

from termprobe.errors import EXIT_PASSED
from termprobe.link.ports import BUSY, DENIED, NO_DRIVER, READY, PortInfo, ports
from termprobe.notation import visible

NONE_FOUND = """\
No serial port on this computer.

1. Plug the USB serial adapter in. A bare TTL adapter is not enough for a
   board with RS-232 levels: the voltages and the polarity differ.
2. Run `termprobe ports` again. On Linux `sudo dmesg | tail` shows whether
   the adapter was seen at all; if not, try another cable (some only charge).
3. Inside a virtual machine or container, hand the device over to it first.

A port served elsewhere needs no adapter here: --port socket://HOST:NUMBER.
Without any hardware: termprobe demo, or --port sim: for a simulated board."""

HOW_TO_BE_ALLOWED = """\
{path} is there, but you are not allowed to open it.

On Linux its group opens it. Join that group once:
    sudo usermod -aG {by} $USER
then log out and in again (a new window is not enough), and check with `id`.
Until then, for this one time:
    sudo setfacl -m u:$USER:rw {path}
No need to run termprobe as root."""

HOW_TO_FREE_IT = """\
{path} is held by another program: {by}.

Two programs on one line take each other's characters, so termprobe waits
for the port to be free:
1. Close that program. If it is ModemManager, it tries every new port for a
   few seconds: wait, or stop it with `sudo systemctl stop ModemManager`.
2. `sudo fuser -v {path}` shows who holds it, whoever started it.
3. Run `termprobe ports` again."""

HOW_TO_GET_A_DRIVER = """\
A {adapter} is plugged in, but makes no serial port.

1. sudo modprobe {by}
2. If that says there is no such module, install your system's package of
   extra kernel modules (on Ubuntu: linux-modules-extra-$(uname -r)).
3. If the port appears and vanishes at once, a service for braille displays
   (brltty) has taken it: remove that package if you do not need it.
4. Plug the adapter in again, then run `termprobe ports`."""


INSTRUCTIONS = {DENIED: HOW_TO_BE_ALLOWED, BUSY: HOW_TO_FREE_IT, NO_DRIVER: HOW_TO_GET_A_DRIVER}
"""For each state that is not ready: how to get a port."""


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Add the words that this command takes."""
    parser.add_argument("--json", action="store_true", help="print one JSON document")


def run(arguments: argparse.Namespace) -> int:
    """Print the ports; return the exit code, 0 also where there is none."""
    found = ports()
    if arguments.json:
        print(json.dumps({"ports": [dataclasses.asdict(port) for port in found]}, indent=2))
    else:
        print(page(found))
    return EXIT_PASSED


def page(found: Sequence[PortInfo]) -> str:
    """Return what to show: the list, then, where no port is ready, how to get one."""
    if not found:
        return NONE_FOUND
    lines = [line for port in found for line in _lines(port)]
    usable = [port for port in found if port.state == READY]
    obstructed = [port for port in found if port.state != READY]
    if obstructed and not any(port.adapter for port in usable):
        lines += ["", _instruction(obstructed[0])]
    elif usable:
        lines += ["", f"Name one of them, for example: --port {visible(usable[0].path)}"]
    return "\n".join(lines)


def _lines(port: PortInfo) -> Iterator[str]:
    called, chip = port.path or port.name, port.adapter or "built in"
    yield f"{visible(called)}  {visible(chip)}"
    if port.hint:
        yield f"    {visible(port.hint)}"


def _instruction(port: PortInfo) -> str:
    text = INSTRUCTIONS[port.state]
    return text.format(path=visible(port.path), adapter=visible(port.adapter), by=visible(port.by))
