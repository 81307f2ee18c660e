"""termprobe ports: the serial ports of this computer, and what to do where one cannot be used."""

from termprobe.errors import EXIT_PASSED

NONE_FOUND = """\
No serial port on this computer.

1. Plug the USB serial adapter in. A bare TTL adapter is not enough for a
   board with RS-232 levels: the voltages and the polarity differ.
2. Run `termprobe ports` again. On Linux `sudo dmesg | tail` shows whether
   the adapter was seen at all; if not, try another cable (some only charge).
3. Inside a virtual machine or container, hand the device over to it first.

A port served elsewhere needs no adapter here: --port socket://HOST:NUMBER.
Without any hardware: termprobe demo, or --port sim: for a simulated board."""

DENIED = """\
{path} is there, but you are not allowed to open it.

On Linux its group opens it. Join that group once:
    sudo usermod -aG {by} $USER
then log out and in again (a new window is not enough), and check with `id`.
Until then, for this one time:
    sudo setfacl -m u:$USER:rw {path}
No need to run termprobe as root."""

BUSY = """\
{path} is held by another program: {by}.

Two programs on one line take each other's characters, so termprobe waits
for the port to be free:
1. Close that program. If it is ModemManager, it tries every new port for a
   few seconds: wait, or stop it with `sudo systemctl stop ModemManager`.
2. `sudo fuser -v {path}` shows who holds it, whoever started it.
3. Run `termprobe ports` again."""

NO_DRIVER = """\
A {adapter} is plugged in, but makes no serial port.

1. sudo modprobe {by}
2. If that says there is no such module, install your system's package of
   extra kernel modules (on Ubuntu: linux-modules-extra-$(uname -r)).
3. If the port appears and vanishes at once, a service for braille displays
   (brltty) has taken it: remove that package if you do not need it.
4. Plug the adapter in again, then run `termprobe ports`."""


def add_arguments(parser):
    """Add the words that this command takes."""
    parser.add_argument("--json", action="store_true", help="print one JSON document")


def run(arguments):
    """Print the ports; return the exit code, 0 also where there is none."""
    from termprobe.link.ports import ports

    found = ports()
    if arguments.json:
        import dataclasses
        import json

        print(json.dumps({"ports": [dataclasses.asdict(port) for port in found]}, indent=2))
    else:
        print(page(found))
    return EXIT_PASSED


def page(found):
    """Return what to show: the list, then, where no port is ready, how to get one."""
    if not found:
        return NONE_FOUND
    from termprobe.notation import visible

    lines = [line for port in found for line in _lines(port)]
    usable = [port for port in found if port.state == "ready"]
    obstructed = [port for port in found if port.state != "ready"]
    if obstructed and not any(port.adapter for port in usable):
        lines += ["", _instruction(obstructed[0])]
    elif usable:
        lines += ["", f"Name one of them, for example: --port {visible(usable[0].path)}"]
    return "\n".join(lines)


def _lines(port):
    from termprobe.notation import visible

    yield "  ".join(visible(word) for word in (port.path or port.name, port.adapter or "built in"))
    if port.hint:
        yield f"    {visible(port.hint)}"


def _instruction(port):
    from termprobe.notation import visible

    text = {"denied": DENIED, "busy": BUSY, "no-driver": NO_DRIVER}[port.state]
    return text.format(path=visible(port.path), adapter=visible(port.adapter), by=visible(port.by))
