"""Bytes and the notation that people read and write them in: `ESC "=" 20h`.

Words of the notation, separated by blanks: a control character's name (RFC 20, section 4.1), printable text in
double quotes, one byte as two hexadecimal digits and `h`, and, in templates only, a lower-case slot such as `row`.
"""

import re

CONTROL_NAMES = (
    "NUL SOH STX ETX EOT ENQ ACK BEL BS HT LF VT FF CR SO SI "
    "DLE DC1 DC2 DC3 DC4 NAK SYN ETB CAN EM SUB ESC FS GS RS US"
).split()  # RFC 20, section 2, columns 0 and 1, in code order
CODE_OF_NAME = {name: code for code, name in enumerate(CONTROL_NAMES)} | {"SP": 0x20, "DEL": 0x7F}
_WORD = re.compile(
    r'"(?P<text>[^"]*)"|(?P<hex>[0-9A-Fa-f]{2})h|(?P<name>[A-Z][A-Z0-9]+)|(?P<slot>[a-z][a-z-]*)'
)


class NotationError(ValueError):
    """Text that is not in the notation."""


def parse_template(text):
    """Return `text` as a tuple of bytes and slot names (str), neighbouring bytes joined; raise NotationError."""
    parts = []
    position = 0
    while position < len(text):
        if text[position] in " \t\n":
            position += 1
            continue
        word = _WORD.match(text, position)
        if not word or (word.end() < len(text) and text[word.end()] not in " \t\n"):
            raise NotationError(
                f'bytes must be written as names (ESC), quoted text ("A") or hexadecimal (1Bh), not {text[position:]!r}'
            )
        part = word["slot"] or _bytes_of(word)
        if parts and isinstance(part, bytes) and isinstance(parts[-1], bytes):
            parts[-1] += part
        else:
            parts.append(part)
        position = word.end()
    return tuple(parts)


def _bytes_of(word):
    if word["text"] is not None:
        if any(not 0x20 <= ord(character) <= 0x7E for character in word["text"]):
            raise NotationError(f"quoted text must be printable ASCII, not {word['text']!r}")
        return word["text"].encode("ascii")
    if word["hex"]:
        return bytes([int(word["hex"], 16)])
    if word["name"] not in CODE_OF_NAME:
        raise NotationError(
            f"a control character's name must be one of RFC 20's, not {word['name']}"
        )
    return bytes([CODE_OF_NAME[word["name"]]])


def parse(text):
    """Return the bytes that `text` stands for; raise NotationError, also where it holds a slot."""
    parts = parse_template(text)
    slots = [part for part in parts if isinstance(part, str)]
    if slots:
        raise NotationError(f"bytes must not hold a slot here, not {slots[0]!r}")
    return b"".join(parts)


def show(data):
    """Return `data` in the notation, one line, printable ASCII only; `parse` gives the same bytes back."""
    words = []
    for run in re.findall(rb"[\x20-\x21\x23-\x7e]+|[\x00-\xff]", bytes(data)):
        code = run[0]
        words.append(show_code(code) if len(run) == 1 else f'"{run.decode("ascii")}"')
    return " ".join(words)


def show_code(code):
    """Return one byte, 0 to 255, as a word of the notation: its RFC 20 name, the quoted character, or hexadecimal."""
    if code < 0x20:
        return CONTROL_NAMES[code]
    if code in (0x20, 0x7F):
        return "SP" if code == 0x20 else "DEL"
    return f"{code:02X}h" if code > 0x7F or code == 0x22 else f'"{chr(code)}"'


def show_template(parts):
    """Return a template as parse_template reads it."""
    return " ".join(part if isinstance(part, str) else show(part) for part in parts)


def visible(text):
    """Return `text` with each character that could act on a console or break XML as an escape such as \\x1b.

    C0, DEL, C1, line and paragraph separators, bidirectional marks, surrogates and U+FFFE/FFFF are replaced; \\n is too.
    """
    return "".join(
        character if _is_harmless(ord(character)) else _escape(ord(character)) for character in text
    )


def _is_harmless(code):
    if code < 0x20 or 0x7F <= code <= 0x9F or 0xD800 <= code <= 0xDFFF or code & 0xFFFE == 0xFFFE:
        return False
    return not (
        0x200B <= code <= 0x200F
        or 0x2028 <= code <= 0x202E
        or 0x2060 <= code <= 0x206F
        or code == 0xFEFF
    )


def _escape(code):
    if code <= 0xFF:
        return f"\\x{code:02x}"
    return f"\\u{code:04x}" if code <= 0xFFFF else f"\\U{code:08x}"
