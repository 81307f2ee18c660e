"""The list of ports: known chips by their USB numbers, obstacles, and one screen of instruction for each."""

import json
import types

import pytest

from termprobe.cli import ports as command
from termprobe.link import ports as ports_module
from termprobe.link.adapters import ADAPTERS, adapter_of
from termprobe.link.ports import PortInfo, ports


def described(
    device, vid=None, pid=None, description="n/a", manufacturer=None, product=None, location=None
):
    """As pyserial describes a port."""
    return types.SimpleNamespace(
        device=device,
        vid=vid,
        pid=pid,
        description=description,
        manufacturer=manufacturer,
        product=product,
        location=location,
    )


@pytest.fixture
def device(tmp_path):
    path = tmp_path / "ttyUSB0"
    path.touch()
    return str(path)


@pytest.fixture
def no_usb(tmp_path):
    return tmp_path / "nothing"


def usb_folder(tmp_path, **devices):
    for place, (vendor, product) in devices.items():
        folder = tmp_path / "usb" / place.replace("_", "-")
        folder.mkdir(parents=True)
        (folder / "idVendor").write_text(f"{vendor:04x}\n")
        (folder / "idProduct").write_text(f"{product:04x}\n")
    (tmp_path / "usb" / "usb1").mkdir(exist_ok=True)
    return tmp_path / "usb"


def test_a_known_chip_is_named_with_what_it_cannot_do(device, no_usb):
    (port,) = ports([described(device, 0x0403, 0x6001, "FT232R USB UART")], no_usb)
    assert (port.path, port.name, port.adapter, port.state) == (
        device,
        "FT232R USB UART",
        "FTDI FT232",
        "ready",
    )
    assert "7 and 8 data bits" in port.hint


def test_an_unknown_chip_says_its_own_words_and_numbers(device, no_usb):
    (port,) = ports(
        [described(device, 0x1234, 0xABCD, manufacturer="Anvil", product="Cable")], no_usb
    )
    assert port.adapter == "Anvil Cable (USB 1234:ABCD)"


def test_a_port_on_the_computer_itself_has_no_adapter(device, no_usb):
    (port,) = ports([described(device)], no_usb)
    assert (port.name, port.adapter, port.hint) == (device, "", "")


def test_usb_ports_come_first(device, no_usb):
    listed = ports([described("/dev/ttyS0"), described(device, 0x1A86, 0x7523)], no_usb)
    assert [port.path for port in listed] == [device, "/dev/ttyS0"]


def test_without_permission_the_group_is_told(device, no_usb, monkeypatch):
    monkeypatch.setattr(ports_module.os, "access", lambda path, mode: False)
    (port,) = ports([described(device, 0x1A86, 0x7523)], no_usb)
    assert port.state == "denied" and f"usermod -aG {port.by} " in port.hint


def test_a_port_in_use_names_the_program(device, no_usb):
    """The real look through /proc, at a child of this test."""
    import subprocess
    import sys

    program = "import sys; f = open(sys.argv[1]); print('held', flush=True); input()"
    with subprocess.Popen(
        [sys.executable, "-c", program, device], stdin=subprocess.PIPE, stdout=subprocess.PIPE
    ) as other:
        assert other.stdout.readline() == b"held\n"
        (port,) = ports([described(device)], no_usb)
        other.communicate(b"\n")
    assert port.state == "busy" and f"process {other.pid}" in port.hint
    (port,) = ports([described(device)], no_usb)
    assert port.state == "ready"


def test_an_adapter_that_makes_no_port_lacks_its_driver(tmp_path, device):
    folder = usb_folder(
        tmp_path, **{"1_4": (0x1A86, 0x7523), "1_5": (0x0403, 0x6001), "1_6": (0x1D6B, 0x0002)}
    )
    listed = ports([described(device, 0x0403, 0x6001, location="1-5:1.0")], folder)
    assert [(port.path, port.state, port.by) for port in listed] == [
        (device, "ready", ""),
        ("", "no-driver", "ch341"),
    ]
    assert "modprobe ch341" in listed[1].hint


def test_no_chip_stands_in_the_table_twice():
    assert len({(adapter.vendor, adapter.product) for adapter in ADAPTERS}) == len(ADAPTERS)
    assert len({adapter.name for adapter in ADAPTERS}) == len(ADAPTERS)
    assert adapter_of(0xFFFF, 0xFFFF) is None
    assert adapter_of(None, None) is None


# Transcribed from usb.ids (2025.07.26); two chips of the table are not in it
USB_IDS = """
0403:6001 FT232 Serial (UART) IC
0403:6010 FT2232C/D/H Dual UART/FIFO IC
0403:6011 FT4232H Quad HS USB-UART/FIFO IC
0403:6014 FT232H Single HS USB-UART/FIFO IC
1A86:5523 CH341 in serial mode, usb to serial port converter
1A86:7522 CH340 serial converter
1A86:7523 CH340 serial converter
10C4:EA60 CP210x UART Bridge
10C4:EA70 CP2105 Dual UART Bridge
10C4:EA71 CP2108 Quad UART Bridge
067B:2303 PL2303 Serial Port
04D8:00DD MCP2221(a) UART/I2C Bridge
"""


@pytest.mark.parametrize("line", USB_IDS.strip().split("\n"))
def test_chips_are_called_as_the_published_list_of_usb_numbers_calls_them(line):
    numbers, word = line.split(" ")[:2]
    name = adapter_of(*(int(number, 16) for number in numbers.split(":"))).name
    stem = word.split("(")[0].replace("CP210x", "CP210").removesuffix("C/D/H").removesuffix("H")
    assert stem in name


READY = PortInfo("/dev/ttyUSB0", "UART", "CH340", "older drivers ...")
DENIED = PortInfo("/dev/ttyUSB0", "UART", "CH340", "not yours", "denied", "dialout")
BUSY = PortInfo("/dev/ttyUSB0", "UART", "CH340", "in use", "busy", "listener, process 12")
NO_DRIVER = PortInfo("", "USB 1-4", "CH340", "no port", "no-driver", "ch341")
BUILT_IN = PortInfo("/dev/ttyS0", "/dev/ttyS0", "", "")


@pytest.mark.parametrize(
    "found, words",
    [
        ((), ["No serial port", "Plug", "termprobe demo", "sim:"]),
        ((DENIED,), ["not allowed", "sudo usermod -aG dialout $USER", "log out"]),
        ((BUSY,), ["listener, process 12", "Close that program", "fuser -v /dev/ttyUSB0"]),
        ((NO_DRIVER,), ["makes no serial port", "modprobe ch341"]),
        ((BUILT_IN, NO_DRIVER), ["/dev/ttyS0  built in", "modprobe ch341"]),
        ((READY, BUILT_IN), ["/dev/ttyUSB0  CH340", "--port /dev/ttyUSB0"]),
        ((READY, BUSY), ["--port /dev/ttyUSB0", "in use"]),
    ],
)
def test_every_state_has_one_plain_screen(found, words):
    text = command.page(found)
    for word in words:
        assert word in text
    assert len(text.split("\n")) <= 24
    assert all(len(line) <= 80 and line.isprintable() for line in text.split("\n"))
    assert "{" not in text


def test_every_hint_fits_a_line():
    for adapter in ADAPTERS:
        assert len(adapter.limits) <= 100


def test_hostile_words_of_a_device_reach_the_console_as_printable_characters():
    text = command.page(
        (PortInfo("/dev/\x1b[2J", "\x07", "\x9b0m", "\x1b]0;x\x07", "busy", "\x1b[H"),)
    )
    assert all(line.isprintable() for line in text.split("\n"))


def test_json_is_one_document_with_every_port(monkeypatch, capsys):
    monkeypatch.setattr(ports_module, "ports", lambda: (READY, NO_DRIVER))
    assert command.run(types.SimpleNamespace(json=True)) == 0
    document = json.loads(capsys.readouterr().out)
    assert document["ports"][0] == {
        "path": "/dev/ttyUSB0",
        "name": "UART",
        "adapter": "CH340",
        "hint": "older drivers ...",
        "state": "ready",
        "by": "",
    }
    assert document["ports"][1]["path"] == ""


def test_the_ports_of_this_computer_are_listed_whatever_they_are(capsys):
    assert command.run(types.SimpleNamespace(json=False)) == 0
    assert capsys.readouterr().out.strip()
