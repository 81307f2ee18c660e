"""Bytes as somebody tells of them: in the notation of profiles, or as plain text."""

from termprobe.errors import UsageError
from termprobe.notation import NotationError, parse


def told_bytes(text: str, is_eight_bits: bool = False) -> bytes:
    """Return the bytes that `text` stands for: in the notation, or as it is; raise UsageError.

    `is_eight_bits` tells whether a host may show it that reads an eighth bit.
    """
    try:
        return parse(text)
    except NotationError:
        pass
    try:
        return text.encode("latin-1" if is_eight_bits else "ascii")
    except UnicodeEncodeError:
        raise UsageError(
            f"TEXT must be plain ASCII, or bytes as names (ESC), quoted text or hexadecimal, "
            f"not {text!r}"
        ) from None
