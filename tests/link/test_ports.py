"""The list of ports: known chips, ports of the computer itself, and what stands in the way."""

import types

import pytest

from helpers.lines import holding
from termprobe.link import ports as ports_module
from termprobe.link.ports import ports


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
    for location, (vendor, product) in devices.items():
        folder = tmp_path / "usb" / location.replace("_", "-")
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
        "FT232",
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
    with holding(device) as number:
        (port,) = ports([described(device)], no_usb)
    assert port.state == "busy" and f"process {number}" in port.hint
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
