"""Known chips by their USB numbers."""

import re

import pytest

from termprobe.link.adapters import ADAPTERS, adapter_of


def test_no_chip_stands_in_the_table_twice():
    assert len({(adapter.vendor, adapter.product) for adapter in ADAPTERS}) == len(ADAPTERS)
    assert len({adapter.name for adapter in ADAPTERS}) == len(ADAPTERS)
    assert adapter_of(0xFFFF, 0xFFFF) is None
    assert adapter_of(None, None) is None


# Transcribed from usb.ids (2025.07.26), where it names the chip.
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


def test_what_the_published_list_is_said_to_name_is_transcribed_and_nothing_else():
    named = {
        f"{adapter.vendor:04X}:{adapter.product:04X}"
        for adapter in ADAPTERS
        if adapter.source == "usb.ids 2025.07.26"
    }
    assert named == {line.split()[0] for line in USB_IDS.strip().split("\n")}


def test_a_chip_is_called_by_its_part_number_alone_and_every_fact_has_its_source():
    for adapter in ADAPTERS:
        part, _, about = adapter.name.partition(" ")
        assert re.fullmatch(r"[A-Z]{2,3}[0-9]{3,4}[A-Z]{0,2},?", part), adapter.name
        assert about in ("", "family", "two ports", "four ports")
        assert adapter.source and bool(adapter.hint.text) == bool(adapter.hint.source)


def test_every_hint_fits_a_line():
    for adapter in ADAPTERS:
        assert len(adapter.limits) <= 100
