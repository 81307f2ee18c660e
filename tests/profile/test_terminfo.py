"""The codes of the shipped profiles against the terminfo data base.

It is that of the packages ncurses-base and ncurses-term, read by infocmp. The family of a profile
is found by what its entries have in common, never by name. Where entries differ from the profile
the difference stands here with its reason; an unlisted difference fails, and so does a listed one
that is none.
"""

import concurrent.futures
import functools
import re
import subprocess

import pytest

from termprobe.profile.encode import encode
from termprobe.profile.key_codes import code_of
from termprobe.profile.load import load

COMMANDS = {
    "bel": "bell",
    "cub1": "left",
    "cud1": "down",
    "cuu1": "up",
    "cuf1": "right",
    "cr": "return",
    "clear": "clear",
    "home": "home",
    "ind": "down",
}
KEYS = {"kcub1": "left", "kcud1": "down", "kcuu1": "up", "kcuf1": "right", "khome": "home"}

FAMILY = {
    "lines": 24,
    "cols": 80,
    "am": True,
    "cup": b"\x1b=%p1%' '%+%c%p2%' '%+%c",
    "el": b"\x1bT",
    "ed": b"\x1bY",
}
"""What the entries of the single-byte family have in common."""

CLEARED_OTHERWISE = "clears by a lead-in; its SUB may clear too, but the entry does not use it"
LINE_FEED_APART = "has SYN to move down without scrolling, and keeps LF for scrolling (ind)"
KEY_APART = "its key for down sends SYN, so that the host can tell it from LINE FEED"
PREFIXED_KEYS = "its cursor keys send SOH, a letter and CR"
HOMED_OTHERWISE = "homes by a lead-in; its RS may home too, but the entry does not use it"
HOMED_BY_ADDRESS = "homes by an address; with 20h added to it, 01h is no coordinate"
DIFFERENCES = {
    ("clear", b"\x1b*"): CLEARED_OTHERWISE,
    ("clear", b"\x1b+"): CLEARED_OTHERWISE,
    ("clear", b"\x1b;"): CLEARED_OTHERWISE,
    ("clear", b"\x1b+\x1e"): CLEARED_OTHERWISE,
    ("cud1", b"\x16"): LINE_FEED_APART,
    ("kcud1", b"\x16"): KEY_APART,
    ("home", b"\x1b{"): HOMED_OTHERWISE,
    ("home", b"\x1b=\x01\x01"): HOMED_BY_ADDRESS,
    ("kcub1", b"\x01L\r"): PREFIXED_KEYS,
    ("kcud1", b"\x01K\r"): PREFIXED_KEYS,
    ("kcuu1", b"\x01J\r"): PREFIXED_KEYS,
    ("kcuf1", b"\x01M\r"): PREFIXED_KEYS,
    ("khome", b"\x01N\r"): PREFIXED_KEYS,
}
"""(capability, what an entry of the family has there): why it is not what the profile has."""


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


def test_strings_of_the_data_base_are_read_rightly():
    assert unescaped(r"\E=%p1\032$<50>^^^K\s\n\\") == b"\x1b=%p1\x1a\x1e\x0b \n\\"


@functools.cache
def family():
    """Return name -> capabilities of the entries that have in common what FAMILY says."""
    listed = subprocess.run(["toe", "-a"], capture_output=True, text=True, check=True).stdout
    names = sorted({line.split()[0] for line in listed.splitlines()})
    with concurrent.futures.ThreadPoolExecutor(4) as pool:
        found = dict(zip(names, pool.map(entry, names), strict=True))
    return {name: entry for name, entry in found.items() if FAMILY.items() <= entry.items()}


def test_codes_of_the_single_byte_profile_are_those_of_its_family():
    profile = load("singlebyte-24x80")
    keyboard = profile.keyboard
    ours = {capability: encode(profile, name) for capability, name in COMMANDS.items()}
    ours |= {capability: code_of(keyboard, keyboard.key(name)) for capability, name in KEYS.items()}
    compared = [
        (capability, theirs[capability])
        for theirs in family().values()
        for capability in ours
        if capability in theirs
    ]
    differences = {(capability, code) for capability, code in compared if code != ours[capability]}
    assert differences == set(DIFFERENCES)
    assert len(compared) > 600


def test_size_and_margin_of_the_single_byte_profile_are_those_of_its_family():
    display = load("singlebyte-24x80").display
    assert (FAMILY["lines"], FAMILY["cols"]) == (display.rows, display.columns)
    # terminfo(5): am goes on in the next line; xenl ignores a line feed after that
    assert FAMILY["am"] and display.printing.last_column == "next-row"
    swallowing = [name for name, theirs in family().items() if "xenl" in theirs]
    assert len(swallowing) < len(family()) / 10


def address_by_tput(name, row, column):
    done = subprocess.run(
        ["tput", "-T", name, "cup", str(row), str(column)], capture_output=True, check=True
    )
    return done.stdout.rstrip(b"\0")


def test_addresses_of_the_single_byte_profile_are_those_of_its_family():
    profile = load("singlebyte-24x80")
    for name in family():
        for row, column in ((0, 0), (4, 9), (23, 79), (0, 79)):
            assert encode(profile, "address", row, column) == address_by_tput(name, row, column)


@pytest.mark.parametrize("name", ["xterm", "ansi"])
def test_addresses_of_the_ecma_48_profile_are_those_of_the_data_base(name):
    profile = load("ecma48-24x80")
    for row, column in ((0, 0), (4, 9), (23, 79), (9, 9), (10, 99)):
        assert encode(profile, "address", row, column) == address_by_tput(name, row, column)


ECMA_48_COMMANDS = {
    "xterm": {
        "bel": "bell",
        "cr": "return",
        "cub1": "backspace",
        "cud1": "line-feed",
        "cuu1": "up",
        "cuf1": "right",
        "home": "home",
        "ind": "line-feed",
        "ri": "reverse-index",
        "ht": "tab",
        "hts": "tab-set",
        "tbc": "tab-clear-all",
        "el1": "erase-to-start-of-line",
        "ed": "erase-to-end-of-display",
        "el": "erase-to-end-of-line",
        "bold": "bold",
        "smul": "underline",
        "blink": "blink",
        "rev": "reverse",
    },
    "ansi": {
        "cub1": "left",
        "cud1": "down",
        "cuu1": "up",
        "cuf1": "right",
        "home": "home",
        "dch1": "delete-character",
        "dl1": "delete-line",
        "il1": "insert-line",
        "hts": "tab-set",
        "u7": "report-cursor",
        "u9": "identify",
    },
}
DEFAULT_LEFT_OUT = "the entry leaves the default parameter out"


@pytest.mark.parametrize("name", ECMA_48_COMMANDS)
def test_codes_of_the_ecma_48_profile_are_those_of_the_data_base(name):
    profile = load("ecma48-24x80")
    for capability, command in ECMA_48_COMMANDS[name].items():
        ours = encode(profile, command)
        forms = {ours}
        if ours[-1:] in b"ABCDJKLMPc":
            forms.add(re.sub(rb"(?<=\x1b\[)[01](?=[A-Za-z]$)", b"", ours))
        assert entry(name)[capability] in forms, f"{capability}: {DEFAULT_LEFT_OUT}, else the same"


def test_cursor_and_function_keys_of_the_ecma_48_profile_are_those_of_the_data_base():
    keyboard = load("ecma48-24x80").keyboard
    for capability, key in KEYS.items():
        assert code_of(keyboard, keyboard.key(key)) == entry("ansi")[capability]
    for number in (1, 2, 3, 4):
        assert code_of(keyboard, keyboard.key(f"f{number}")) == entry("xterm")[f"kf{number}"]
    assert code_of(keyboard, keyboard.key("back-space")) == entry("ansi")["kbs"]
    # The cursor keys of entry xterm are those of application mode, which smkx switches on: SS3 in
    # the place of CSI.
    assert entry("xterm")["smkx"].startswith(b"\x1b[?1h")
    for capability in ("kcub1", "kcud1", "kcuu1", "kcuf1"):
        assert entry("xterm")[capability] == entry("ansi")[capability].replace(b"[", b"O")
