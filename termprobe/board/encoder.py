"""The keyboard's encoder: a memory holds what keys send, gates form the codes it does not hold."""

from collections.abc import Callable
from typing import NamedTuple

from termprobe.profile.model import Key, Keyboard


class _Paired(NamedTuple):
    """Characters that share keys, in the same order."""

    lower: str
    upper: str


# The upper characters of an office typewriter of the United States: 2 @, 6 ^ and 8 * are published,
# the others are common practice.
_DIGITS = _Paired("1234567890", "!@#$%^&*()")
_RIGHT_OF_DIGITS = _Paired("-=", "_+")
_RIGHT_OF_LETTERS = _Paired("[]\\;',./", '{}|:"<>?')
_LEFT_OF_DIGITS = _Paired("`", "~")
TYPEWRITER_ROM = {
    ord(lower): ord(upper)
    for paired in (_DIGITS, _RIGHT_OF_DIGITS, _RIGHT_OF_LETTERS, _LEFT_OF_DIGITS)
    for lower, upper in zip(paired.lower, paired.upper, strict=True)
}
BIT_4, BIT_5, BIT_6 = 0x10, 0x20, 0x40
SPACE, ZERO = 0x20, 0x30
Gate = Callable[[int], int | None]
"""Forms a code of another; None: no strobe."""


def encode(keyboard: Keyboard, key: Key, shift: bool, control: bool, lock: bool = False) -> bytes:
    """Return the bytes that the encoder forms for `key` while these lines are active.

    None are formed where there is no strobe. The memory's addresses are the key and both lines;
    where it is empty the gates act on the code of the lower lines.
    """
    if not control:
        return _letters(keyboard, _without_control(keyboard, key, shift, lock))
    if shift and key.shift_control is not None:
        return _held(key.shift_control)
    if not shift and key.control is not None:
        return _held(key.control)
    return _through(CONTROL_GATES[keyboard.control], encode(keyboard, key, shift, False, lock))


def _without_control(keyboard: Keyboard, key: Key, shift: bool, lock: bool) -> bytes:
    code = bytes(key.code or b"")
    if not (shift or lock and _is_locked(keyboard, code)):
        return code
    if key.shift is not None:
        return _held(key.shift)
    return _through(SHIFT_GATES[keyboard.pairing], code)


def _is_locked(keyboard: Keyboard, code: bytes) -> bool:
    """Tell whether the locking key acts on `code`."""
    return keyboard.lock == "shift" or _is_one_letter(code)


def _held(content: bytes | str) -> bytes:
    """Return what the memory holds; the word `none` stands for no strobe."""
    if isinstance(content, str):
        return b""
    return bytes(content)


def _through(gate: Gate, code: bytes) -> bytes:
    """Let the gate act on a single printable code; several bytes and control characters bypass."""
    if len(code) != 1 or not BIT_5 <= code[0] < 0x80:
        return code
    formed = gate(code[0])
    if formed is None:
        return b""
    return bytes([formed])


def _bit_paired(code: int) -> int | None:
    """Invert one bit: bit 5 where bit 6 is high, else bit 4.

    The space bar passes, and 0 would be a space: no strobe.
    """
    if code == SPACE:
        return code
    if code == ZERO:
        return None
    if code & BIT_6:
        return code ^ BIT_5
    return code ^ BIT_4


def _typewriter(code: int) -> int:
    if _is_letter(code):
        return _capital(code)
    return TYPEWRITER_ROM.get(code, code)


def _unchanged(code: int) -> int:
    return code


SHIFT_GATES: dict[str, Gate] = {
    "bit": _bit_paired,
    "typewriter": _typewriter,
    "none": _unchanged,
}
"""Pairing of a keyboard: what SHIFT does."""


def _low_bits(code: int) -> int:
    return code & ~(BIT_5 | BIT_6)


def _inverted_bit_6(code: int) -> int | None:
    """Invert bit 6 of the capital; no strobe unless a control character comes of it."""
    formed = code ^ BIT_6
    if _is_letter(code):
        formed = _capital(code) ^ BIT_6
    if formed < BIT_5 or formed == 0x7F:
        return formed
    return None


CONTROL_GATES: dict[str, Gate] = {"and-1Fh": _low_bits, "xor-40h": _inverted_bit_6}
"""What CONTROL does."""


def _letters(keyboard: Keyboard, code: bytes) -> bytes:
    if keyboard.letters == "upper-only" and _is_one_letter(code):
        return bytes([_capital(code[0])])
    return code


def _capital(letter: int) -> int:
    return letter & ~BIT_5


def _is_one_letter(code: bytes) -> bool:
    return len(code) == 1 and _is_letter(code[0])


def _is_letter(code: int) -> bool:
    """Tell whether a letter stands there, in columns 4 to 7 (RFC 20, section 2)."""
    return code < 0x80 and code & BIT_6 != 0 and 1 <= code & 0x1F <= 26
