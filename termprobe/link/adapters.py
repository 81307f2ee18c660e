"""USB chips that make a serial port: their part numbers, Linux drivers, and what bites with them.

The drivers' names are from memory.
"""

from dataclasses import dataclass
from typing import NamedTuple


class Hint(NamedTuple):
    """What the user should know before blaming a board."""

    text: str
    source: str


NO_HINT = Hint("", "")


@dataclass(frozen=True)
class Adapter:
    """One chip."""

    vendor: int
    product: int
    name: str
    """Its part number, or that of its family."""
    driver: str
    source: str
    """Where numbers and name come from."""
    hint: Hint = NO_HINT

    @property
    def limits(self) -> str:
        """What the user should know; empty where nothing is known."""
        return self.hint.text


_LIST = "usb.ids 2025.07.26"
_NUMBER_ONLY = f"{_LIST} for the number, the name from memory"
_MEMORY = "from memory"

_FT = Hint(
    "7 and 8 data bits only, nothing below about 180 baud",
    "source of the Linux driver ftdi_sio for the data bits; the speed from memory",
)
_CH34 = Hint(
    "older drivers ignore parity and 7 data bits: try the format on a loopback plug first",
    "bench reports on drivers of several systems",
)
_CP21 = Hint("most of these chips refuse less than 300 baud", "bench reports")
_CP2105 = Hint(f"{_CP21.text}, one port of this one less than 2400", _CP21.source)
_PL23 = Hint(
    "110 and 134.5 baud are not in its list and come out as another speed",
    "the list of speeds in the source of an older Linux driver pl2303",
)

ADAPTERS = (
    #       vendor  product  name                       driver      source        hint
    Adapter(0x0403, 0x6001, "FT232", "ftdi_sio", _LIST, _FT),
    Adapter(0x0403, 0x6010, "FT2232, two ports", "ftdi_sio", _LIST, _FT),
    Adapter(0x0403, 0x6011, "FT4232, four ports", "ftdi_sio", _LIST, _FT),
    Adapter(0x0403, 0x6014, "FT232H", "ftdi_sio", _LIST, _FT),
    Adapter(0x0403, 0x6015, "FT230X family", "ftdi_sio", _NUMBER_ONLY, _FT),
    Adapter(0x1A86, 0x7523, "CH340", "ch341", _LIST, _CH34),
    Adapter(0x1A86, 0x7522, "CH340K", "ch341", _LIST, _CH34),
    Adapter(0x1A86, 0x5523, "CH341", "ch341", _LIST, _CH34),
    Adapter(0x1A86, 0x55D4, "CH9102", "cdc_acm", _MEMORY),
    Adapter(0x10C4, 0xEA60, "CP2102 family", "cp210x", _LIST, _CP21),
    Adapter(0x10C4, 0xEA70, "CP2105, two ports", "cp210x", _LIST, _CP2105),
    Adapter(0x10C4, 0xEA71, "CP2108, four ports", "cp210x", _LIST, _CP21),
    Adapter(0x067B, 0x2303, "PL2303", "pl2303", _LIST, _PL23),
    Adapter(0x067B, 0x23A3, "PL2303GC", "pl2303", _NUMBER_ONLY, _PL23),
    Adapter(0x067B, 0x23C3, "PL2303GT", "pl2303", _MEMORY, _PL23),
    Adapter(0x04D8, 0x00DD, "MCP2221", "cdc_acm", _LIST),
)


_BY_NUMBERS = {(adapter.vendor, adapter.product): adapter for adapter in ADAPTERS}


def adapter_of(vendor: int | None, product: int | None) -> Adapter | None:
    """Return the Adapter with these USB numbers, or None."""
    if vendor is None or product is None:
        return None
    return _BY_NUMBERS.get((vendor, product))
