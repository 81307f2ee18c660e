"""The keyboard's encoder: a memory holds what each key sends, gates form the codes that it does not hold. One place, one code."""

# The upper characters of an office typewriter of the United States, by the key below them: 2 @, 6 ^ and 8 * are published, the
# others are common practice.
_TYPEWRITER = {
    "digits": ("1234567890", "!@#$%^&*()"),
    "right of the digits": ("-=", "_+"),
    "right of the letters": ("[]\\;',./", '{}|:"<>?'),
    "left of the digits": ("`", "~"),
}
TYPEWRITER_ROM = {
    ord(low): ord(high)
    for lows, highs in _TYPEWRITER.values()
    for low, high in zip(lows, highs, strict=True)
}
BIT_4, BIT_5, BIT_6 = 0x10, 0x20, 0x40


def encode(keyboard, key, shift, control, lock=False):
    """Return the bytes that the encoder of `keyboard` forms for `key` while these lines are active; empty: no strobe.

    The memory's addresses are the key and both lines; where it is empty the gates act on the code of the lower lines.
    """
    code, written = bytes(key.code or b""), False
    if not control:
        lock_acts = lock and (keyboard.lock == "shift" or _is_one(code) and _is_letter(code[0]))
        if not (shift or lock_acts):
            return _letters(keyboard, code)
        code, written = _from_memory(key.shift, code)
        return _letters(keyboard, code if written else _through(_shift_gates(keyboard), code))
    if shift and key.shift_control is not None:
        return _from_memory(key.shift_control, code)[0]
    below = encode(keyboard, key, shift, False, lock)
    if not shift:
        below, written = _from_memory(key.control, below)
    return below if written else _through(_control_gates(keyboard), below)


def _from_memory(content, otherwise):
    """Return (bytes, True) of a place of the memory that is filled, or (`otherwise`, False)."""
    if content is None:
        return otherwise, False
    return (b"" if content == "none" else bytes(content)), True


def _through(gates, code):
    """Let the gates act on a single printable code; several bytes and control characters bypass them."""
    if not _is_one(code) or not BIT_5 <= code[0] < 0x80:
        return code
    formed = gates(code[0])
    return b"" if formed is None else bytes([formed])


def _shift_gates(keyboard):
    return {"bit": _bit_paired, "typewriter": _typewriter, "none": lambda code: code}[
        keyboard.pairing
    ]


def _bit_paired(code):
    """Invert one bit: bit 5 where bit 6 is high, else bit 4. The space bar passes, and 0 would be a space: no strobe."""
    if code == 0x20:
        return code
    return code ^ BIT_5 if code & BIT_6 else code ^ BIT_4 if code != 0x30 else None


def _typewriter(code):
    return code & ~BIT_5 if _is_letter(code) else TYPEWRITER_ROM.get(code, code)


def _control_gates(keyboard):
    return _low_bits if keyboard.control == "and-1Fh" else _inverted_bit_6


def _low_bits(code):
    return code & ~(BIT_5 | BIT_6)


def _inverted_bit_6(code):
    """Invert bit 6 of the capital; no strobe unless a control character comes of it."""
    formed = (code & ~BIT_5 if _is_letter(code) else code) ^ BIT_6
    return formed if formed < BIT_5 or formed == 0x7F else None


def _letters(keyboard, code):
    capital = keyboard.letters == "upper-only" and _is_one(code) and _is_letter(code[0])
    return bytes([code[0] & ~BIT_5]) if capital else code


def _is_one(code):
    return len(code) == 1


def _is_letter(code):
    """Tell whether `code` stands in the letter places of columns 4 to 7 (RFC 20, section 2)."""
    return code < 0x80 and code & BIT_6 != 0 and 1 <= code & 0x1F <= 26
