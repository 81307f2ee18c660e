"""Bytes and the notation that people read and write them in: `ESC "=" 20h`.

Words of the notation, separated by blanks: a control character's name (RFC 20, section 4.1),
printable text in double quotes, one byte as two hexadecimal digits and `h`, and, in templates only,
a lower-case slot such as `row`.
"""

import re
from collections.abc import Iterable, Iterator

_NAMES_IN_CODE_ORDER = (
    "NUL SOH STX ETX EOT ENQ ACK BEL BS HT LF VT FF CR SO SI "
    "DLE DC1 DC2 DC3 DC4 NAK SYN ETB CAN EM SUB ESC FS GS RS US"
)  # RFC 20, section 2, columns 0 and 1
CONTROL_NAMES = tuple(_NAMES_IN_CODE_ORDER.split())
"""The names of the codes 0 to 1Fh."""
_NAME_OF_CODE = dict(enumerate(CONTROL_NAMES)) | {0x20: "SP", 0x7F: "DEL"}
_CODE_OF_NAME = {name: code for code, name in _NAME_OF_CODE.items()}
_BLANKS = " \t\n"
_WORD = re.compile(
    r'"(?P<text>[^"]*)"|(?P<hex>[0-9A-Fa-f]{2})h|(?P<name>[A-Z][A-Z0-9]+)|(?P<slot>[a-z][a-z-]*)'
)
_NONCHARACTERS = "".join(
    f"{chr(plane + 0xFFFE)}{chr(plane + 0xFFFF)}" for plane in range(0, 0x110000, 0x10000)
)
_HARMFUL = re.compile(
    "[\x00-\x1f\x7f-\x9f"  # C0, DEL and C1
    "\xad\u061c\u180e\u200b-\u200f\u2028-\u202e"  # without width, separating, bidirectional
    "\u2060-\u206f\ufeff\ufff9-\ufffb\U000e0000-\U000e007f"  # the same, annotations and tags
    f"\ud800-\udfff{_NONCHARACTERS}]"  # surrogates, and what is no character
)


class NotationError(ValueError):
    """Text that is not in the notation."""


def parse_template(text: str) -> tuple[bytes | str, ...]:
    """Return `text` as bytes, neighbouring ones joined, and slot names; raise NotationError."""
    parts: list[bytes | str] = []
    for word in _words(text):
        part = word["slot"] or _bytes_of(word)
        if parts and isinstance(part, bytes) and isinstance(parts[-1], bytes):
            parts[-1] += part
        else:
            parts.append(part)
    return tuple(parts)


def _words(text: str) -> Iterator[re.Match[str]]:
    position = 0
    while position < len(text):
        if text[position] in _BLANKS:
            position += 1
            continue
        word = _WORD.match(text, position)
        if word is None or text[word.end() : word.end() + 1] not in _BLANKS:
            raise NotationError(
                'bytes must be written as names (ESC), quoted text ("A") or hexadecimal (1Bh), '
                f"not {text[position:]!r}"
            )
        yield word
        position = word.end()


def _bytes_of(word: re.Match[str]) -> bytes:
    text, name = word["text"], word["name"]
    if text is not None:
        if any(not 0x20 <= ord(character) <= 0x7E for character in text):
            raise NotationError(f"quoted text must be printable ASCII, not {text!r}")
        return text.encode("ascii")
    if word["hex"]:
        return bytes.fromhex(word["hex"])
    if name not in _CODE_OF_NAME:
        raise NotationError(f"a control character's name must be one of RFC 20's, not {name}")
    return bytes([_CODE_OF_NAME[name]])


def parse(text: str) -> bytes:
    """Return the bytes that `text` stands for; raise NotationError, also where it holds a slot."""
    parts = []
    for part in parse_template(text):
        if isinstance(part, str):
            raise NotationError(f"bytes must not hold a slot here, not {part!r}")
        parts.append(part)
    return b"".join(parts)


def show(data: bytes | bytearray) -> str:
    """Return `data` in the notation, one line, printable ASCII only; `parse` gives it back."""
    runs = re.findall(rb"[\x20-\x21\x23-\x7e]+|[\x00-\xff]", data)
    return " ".join(_show_run(run) for run in runs)


def _show_run(run: bytes) -> str:
    if len(run) == 1:
        return show_code(run[0])
    return f'"{run.decode("ascii")}"'


def show_code(code: int) -> str:
    """Return one byte, 0 to 255, as a word of the notation.

    That is its RFC 20 name, the quoted character, or hexadecimal.
    """
    if code in _NAME_OF_CODE:
        return _NAME_OF_CODE[code]
    if code > 0x7F or code == 0x22:
        return f"{code:02X}h"
    return f'"{chr(code)}"'


def show_template(parts: Iterable[bytes | str]) -> str:
    """Return a template as parse_template reads it."""
    return " ".join(_show_part(part) for part in parts)


def _show_part(part: bytes | str) -> str:
    if isinstance(part, str):
        return part
    return show(part)


def visible(text: str) -> str:
    """Return `text` with all that could act on a console or break XML as escapes such as \\x1b.

    C0 (also \\n), DEL, C1, line and paragraph separators, bidirectional marks, what has no width,
    surrogates and U+FFFE/FFFF are replaced.
    """
    return _HARMFUL.sub(_escape, text)


def _escape(found: re.Match[str]) -> str:
    code = ord(found[0])
    if code <= 0xFF:
        return f"\\x{code:02x}"
    if code <= 0xFFFF:
        return f"\\u{code:04x}"
    return f"\\U{code:08x}"
