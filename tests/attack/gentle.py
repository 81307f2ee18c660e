"""Changes that leave the form of an input whole: another number, another word, another value.

Most changes of bytes are refused by whoever takes the form apart; these get past it.
"""

import re

_NUMBER = re.compile(rb"\d+")
_WORD = re.compile(rb"[A-Za-z][A-Za-z0-9-]+")
_VALUE = re.compile(rb"(?<=: )[^:{}\[\],\n]+")
"""A plain value behind a key, on a line of its own or between braces."""
_NUMBERS = (b"0", b"1", b"2", b"7", b"8", b"255", b"256", b"65536", b"-1", b"0.5", b"1e9", b"00")


def gently_changed(chance, data, seeds):
    """Return `data` with one such change, drawn by `chance`."""
    return chance.choice(_CHANGES)(chance, data, seeds)


def _found(chance, pattern, data):
    """Return the first match of `pattern` behind an index drawn, or of all; None without any."""
    return pattern.search(data, chance.randint(0, len(data))) or pattern.search(data)


def _put(data, found, new):
    """Return `data` with `new` for the match `found`; as it is where there is none."""
    if found is None:
        return data
    return data[: found.start()] + new + data[found.end() :]


def _exchanged(chance, pattern, data, seeds):
    """Return `data` with one match of `pattern` as it stands elsewhere in the inputs."""
    other = _found(chance, pattern, chance.choice(seeds))
    if other is None:
        return data
    return _put(data, _found(chance, pattern, data), other[0])


def _number(chance, data, _):
    return _put(data, _found(chance, _NUMBER, data), chance.choice(_NUMBERS))


def _next_number(chance, data, _):
    found = _found(chance, _NUMBER, data)
    if found is None:
        return data
    value = int(found[0][:9]) + chance.choice((-1, 1))
    return _put(data, found, str(value).encode())


def _word_of_input(chance, data, seeds):
    return _exchanged(chance, _WORD, data, seeds)


def _letter(chance, data, _):
    found = _found(chance, _VALUE, data) or _found(chance, _WORD, data)
    if found is None:
        return data
    index = chance.randrange(found.start(), found.end())
    return data[:index] + bytes([chance.randrange(0x20, 0x7F)]) + data[index + 1 :]


def _value_of_input(chance, data, seeds):
    return _exchanged(chance, _VALUE, data, seeds)


def _quoted(chance, data, _):
    found = _found(chance, _VALUE, data)
    if found is None:
        return data
    return _put(data, found, b'"' + found[0].replace(b"\\", b"").replace(b'"', b"") + b'"')


_CHANGES = (_number, _next_number, _word_of_input, _letter, _value_of_input, _quoted)
