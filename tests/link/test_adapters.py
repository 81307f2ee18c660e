"""Known chips by their USB numbers."""

import pytest

from termprobe.link.adapters import ADAPTERS, adapter_of


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


def test_every_hint_fits_a_line():
    for adapter in ADAPTERS:
        assert len(adapter.limits) <= 100
