"""`termprobe ports`: one screen of instruction for each obstacle, and one JSON document."""

import json
import types

import pytest

from termprobe.cli import ports as command
from termprobe.link.ports import PortInfo

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


def test_hostile_words_of_a_device_reach_the_console_as_printable_characters():
    text = command.page(
        (PortInfo("/dev/\x1b[2J", "\x07", "\x9b0m", "\x1b]0;x\x07", "busy", "\x1b[H"),)
    )
    assert all(line.isprintable() for line in text.split("\n"))


def test_json_is_one_document_with_every_port(monkeypatch, capsys):
    monkeypatch.setattr(command, "ports", lambda: (READY, NO_DRIVER))
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
