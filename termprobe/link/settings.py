"""Speed and frame as a port takes them: what can be at all, and in the words of pyserial."""

from collections.abc import Iterator

from termprobe.errors import LinkSettingsError
from termprobe.link.base import LineFormat
from termprobe.link.frame_text import PARITY_LETTERS

MAX_SPEED_BAUD = 4_000_000


def refuse_impossible(name: str, format: LineFormat) -> None:
    """Raise LinkSettingsError, naming the port, where no line can have this format."""
    wrong = "; ".join(_wrong_settings(format))
    if wrong:
        raise LinkSettingsError(f"{name}: {wrong}")


def _wrong_settings(format: LineFormat) -> Iterator[str]:
    if not 0 < format.speed_baud <= MAX_SPEED_BAUD:
        yield f"speed must be 1 to {MAX_SPEED_BAUD} baud, not {format.speed_baud}"
    if format.data_bits not in (5, 6, 7, 8):
        yield f"data bits must be 5 to 8, not {format.data_bits}"
    if format.parity not in PARITY_LETTERS:
        yield f"parity must be none, even, odd, mark or space, not {format.parity}"
    if format.stop_bits not in (1, 2):
        yield f"stop bits must be 1 or 2, not {format.stop_bits}"


def line_settings(format: LineFormat) -> dict[str, int | str]:
    """Return speed and frame by pyserial's names for them."""
    return {
        "baudrate": format.speed_baud,
        "bytesize": format.data_bits,
        "parity": PARITY_LETTERS[format.parity],
        "stopbits": format.stop_bits,
    }
