"""USB chips that make a serial port: their names, the Linux driver of each, and what bites with it.

Source of the numbers: usb.ids (2025.07.26), but 067B:23C3 and 1A86:55D4, which are from memory, as
the drivers' names are.
Source of the limits: the speed and format tables of the Linux drivers, and bench reports.
"""

from dataclasses import dataclass


@dataclass(frozen=True)
class Adapter:
    """One chip."""

    vendor: int
    product: int
    name: str
    driver: str
    limits: str = ""
    """What the user should know before blaming a board."""


_FTDI = "7 and 8 data bits only, nothing below about 180 baud"
_CH34 = "older drivers ignore parity and 7 data bits: try the format on a loopback plug first"
_CP21 = "most of these chips refuse less than 300 baud"
_CP2105 = _CP21 + ", one port of this one less than 2400"
_PL23 = "110 and 134.5 baud are not in its list and come out as another speed"

ADAPTERS = (
    #       vendor  product  name                        driver      limits
    Adapter(0x0403, 0x6001, "FTDI FT232", "ftdi_sio", _FTDI),
    Adapter(0x0403, 0x6010, "FTDI FT2232, two ports", "ftdi_sio", _FTDI),
    Adapter(0x0403, 0x6011, "FTDI FT4232, four ports", "ftdi_sio", _FTDI),
    Adapter(0x0403, 0x6014, "FTDI FT232H", "ftdi_sio", _FTDI),
    Adapter(0x0403, 0x6015, "FTDI FT230X family", "ftdi_sio", _FTDI),
    Adapter(0x1A86, 0x7523, "CH340", "ch341", _CH34),
    Adapter(0x1A86, 0x7522, "CH340K", "ch341", _CH34),
    Adapter(0x1A86, 0x5523, "CH341", "ch341", _CH34),
    Adapter(0x1A86, 0x55D4, "CH9102", "cdc_acm"),
    Adapter(0x10C4, 0xEA60, "CP2102 family", "cp210x", _CP21),
    Adapter(0x10C4, 0xEA70, "CP2105, two ports", "cp210x", _CP2105),
    Adapter(0x10C4, 0xEA71, "CP2108, four ports", "cp210x", _CP21),
    Adapter(0x067B, 0x2303, "PL2303", "pl2303", _PL23),
    Adapter(0x067B, 0x23A3, "PL2303GC", "pl2303", _PL23),
    Adapter(0x067B, 0x23C3, "PL2303GT", "pl2303", _PL23),
    Adapter(0x04D8, 0x00DD, "MCP2221", "cdc_acm"),
)


_BY_NUMBERS = {(adapter.vendor, adapter.product): adapter for adapter in ADAPTERS}


def adapter_of(vendor: int | None, product: int | None) -> Adapter | None:
    """Return the Adapter with these USB numbers, or None."""
    if vendor is None or product is None:
        return None
    return _BY_NUMBERS.get((vendor, product))
