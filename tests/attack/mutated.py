"""Inputs nobody would write: what a user would write with a few mutations, or chance alone."""

from .gentle import gently_changed

TOKENS = (
    b"\x00",
    b"\x1b[2J",
    b"\x9b31m",
    "\u202e".encode(),
    "\u2028".encode(),
    b"\xff\xfe",
    b"\xc3",
    b"<script>alert(1)</script>",
    b"]]>",
    b"{{7*7}}",
    b"%s%n",
    b"&a [*a, *a]",
    b"*a",
    b"!!python/object/apply:os.system [id]",
    b"<<: {a: b}",
    b"---\n",
    b"...\n",
    b"- " * 40,
    b"[" * 40,
    b"{a: " * 40,
    b'{"a":' * 40,
    b"9" * 400,
    b"-1",
    b"1e999",
    b"NaN",
    b"Infinity",
    b"0x7fffffffffffffff",
    b"null",
    b"true",
    b'""',
    b"''",
    b"\t",
    b"\r",
    b"\n\n",
    b": ",
    b"? ",
    b"| \n",
    b">-\n",
    b"#",
    b"\x0e\x0f\x05\x07",
    b"\xed\xa0\x80",
    b"\xf4\x90\x80\x80",
)
"""Pieces on which readers of text, YAML and JSON have stumbled: common practice, no source."""
MUTATIONS_OF_ONE = (1, 1, 1, 2, 4)
MOST_RANDOM_BYTES = 300
RANDOM_SHARE = 0.1
"""So many inputs are chance alone."""
GENTLE_SHARE = 0.4
"""So many of the others keep their form."""


def mutant(chance, seeds):
    """Return one input, drawn by `chance` from the good inputs `seeds`."""
    if chance.random() < RANDOM_SHARE:
        return chance.randbytes(chance.randrange(MOST_RANDOM_BYTES))
    data = chance.choice(seeds)
    if chance.random() < GENTLE_SHARE:
        return gently_changed(chance, data, seeds)
    for _ in range(chance.choice(MUTATIONS_OF_ONE)):
        data = chance.choice(MUTATIONS)(chance, data, seeds)
    return data


def _span(chance, data, most=40):
    first = chance.randint(0, len(data))
    return first, min(len(data), first + chance.randint(0, most))


def _changed_byte(chance, data, _):
    if not data:
        return data
    index = chance.randrange(len(data))
    return data[:index] + bytes([chance.randrange(256)]) + data[index + 1 :]


def _cut_out(chance, data, _):
    first, last = _span(chance, data)
    return data[:first] + data[last:]


def _cut_off(chance, data, _):
    return data[: chance.randint(0, len(data))]


def _doubled(chance, data, _):
    first, last = _span(chance, data, 200)
    return data[:last] + data[first:last] * chance.choice((1, 1, 2, 30)) + data[last:]


def _with_token(chance, data, _):
    first, last = _span(chance, data, chance.choice((0, 12)))
    return data[:first] + chance.choice(TOKENS) + data[last:]


def _spliced(chance, data, seeds):
    other = chance.choice(seeds)
    return data[: chance.randint(0, len(data))] + other[chance.randint(0, len(other)) :]


def _lines_moved(chance, data, _):
    lines = data.split(b"\n")
    line = lines.pop(chance.randrange(len(lines)))
    lines.insert(chance.randint(0, len(lines)), line)
    return b"\n".join(lines)


def _line_removed(chance, data, _):
    lines = data.split(b"\n")
    del lines[chance.randrange(len(lines))]
    return b"\n".join(lines)


def _value_changed(chance, data, _):
    """Put another line's value behind a colon."""
    lines = data.split(b"\n")
    index, other = chance.randrange(len(lines)), chance.choice(lines)
    key, colon, _ = lines[index].partition(b":")
    lines[index] = key + colon + other.partition(b":")[2]
    return b"\n".join(lines)


MUTATIONS = (
    _changed_byte,
    _cut_out,
    _cut_off,
    _doubled,
    _with_token,
    _spliced,
    _lines_moved,
    _line_removed,
    _value_changed,
)
