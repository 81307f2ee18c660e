"""The terminfo data base of this computer, read by infocmp."""

import concurrent.futures
import functools
import re
import subprocess


@functools.cache
def entry(name):
    """Return the capabilities of a terminfo entry.

    A flag is True, a number an int, a string bytes without padding.
    """
    done = subprocess.run(["infocmp", "-1", "-x", name], capture_output=True, check=False)
    assert done.returncode == 0, f"needs the terminfo entry {name} (package ncurses-term)"
    lines = done.stdout.decode("latin-1").split("\n")
    matches = (re.fullmatch(r"\t(\w+)(?:#(\w+)|=(.*))?,", line) for line in lines)
    return {match[1]: value(match[2], match[3]) for match in matches if match}


def value(number, text):
    if number:
        return int(number, 0)
    return text is None or unescaped(text)


ESCAPES = {"E": 27, "e": 27, "n": 10, "l": 10, "r": 13, "t": 9, "b": 8, "f": 12, "s": 32, "0": 0x80}


def unescaped(text):
    """Return the bytes of a terminfo string (terminfo(5), Types of Capabilities), unpadded."""
    unpadded = re.sub(r"\$<[^>]*>", "", text)
    return bytes(
        code_of_word(*word)
        for word in re.findall(r"\\([0-7]{3})|\\(.)|\^(.)|(.)", unpadded, re.DOTALL)
    )


def code_of_word(octal, letter, control, plain):
    if octal:
        return int(octal, 8)
    if letter:
        return ESCAPES.get(letter, ord(letter))
    if control:
        return ord(control) ^ 0x40
    return ord(plain)


@functools.cache
def entries():
    """Return name -> capabilities of every entry of the data base."""
    listed = subprocess.run(["toe", "-a"], capture_output=True, text=True, check=True).stdout
    names = sorted({line.split()[0] for line in listed.splitlines()})
    with concurrent.futures.ThreadPoolExecutor(4) as pool:
        return dict(zip(names, pool.map(entry, names), strict=True))
