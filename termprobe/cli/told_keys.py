"""Keys that were pressed and what came of each, as people write it: A>C, return > nothing."""

import re
from collections.abc import Iterator, Sequence

from termprobe.cli.told_bytes import told_bytes
from termprobe.errors import UsageError
from termprobe.plan.model import Press
from termprobe.plan.presses import coded_presses
from termprobe.profile.model import Profile

ARROWS = {">", "->", "=>", "=", "→", "gives", "gave", "sends", "sent", "becomes", "shows"}
_COMMAS = re.compile(r"(?<=[^\s>=])[,;](?=\s|$)")
_TWO_WORDS = re.compile(r"\bcomes? (?:out )?as\b|\bcame (?:out )?as\b", re.I)
_JOINED = re.compile(r"(.+?)(?:->|=>|→|>|=)(.*)")
_WITH_MODIFIER = re.compile(r"(shift|ctrl|control)[-+](.+)", re.I)
_BYTE = re.compile(r"[0-9A-Fa-f]{2}h")
_CONTROL = re.compile(r"\^(.)")
MODIFIERS = {"shift": "shift", "shifted": "shift", "ctrl": "control", "control": "control"}
_FILLING = ("key", "the", "with", "and", "pressing", "press")
NOTHING = ("nothing", "none", "dead", "silence", "no", "")
_OTHER_NAMES = {
    "enter": "return",
    "cr": "return",
    "escape": "escape",
    "esc": "escape",
    "spacebar": "space",
    "sp": "space",
    "bs": "backspace",
    "del": "rubout",
    "delete": "rubout",
    "lf": "line-feed",
    "linefeed": "line-feed",
}
_NAMED_CODES = {"space": b" ", "return": b"\r", "enter": b"\r", "escape": b"\x1b", "tab": b"\t"}
FORMS = "A>C or CR>LF, shift A > a, ctrl+C > C, return > nothing, K=k, A > C1h"


def keys_told(text: str, profile: Profile) -> tuple[tuple[bytes, bytes], ...]:
    """Return (code of the key that was pressed, codes that came) of each; raise UsageError."""
    presses: Sequence[Press] = ()
    if profile.keyboard is not None:
        presses = coded_presses(profile)
    return tuple((_pressed(key, presses), _came(came)) for key, came in _pairs(text))


def _pairs(text: str) -> Iterator[tuple[list[str], str]]:
    """Yield the words for each key, and the word for what came."""
    words = _COMMAS.sub(" ", _TWO_WORDS.sub("gives", text)).split()
    key: list[str] = []
    while words:
        word = words.pop(0)
        if word.lower() in ARROWS and key:
            came = words.pop(0) if words else ""
        elif (joined := _joined(word)) is not None:
            key.append(joined[0])
            came = joined[1]
        elif word == "twice" and key:
            came = key[-1] * 2
        else:
            key.append(word)
            continue
        while words and _BYTE.fullmatch(came.split(" ")[-1]) and _BYTE.fullmatch(words[0]):
            came += f" {words.pop(0)}"
        if words[:1] == ["twice"]:
            words.pop(0)
            came *= 2
        yield key, came
        key = []
    if key:
        raise UsageError(f'--keys must be words such as {FORMS}, not "{" ".join(key)}"')


def _joined(word: str) -> tuple[str, str] | None:
    """Return the two sides of a word such as A>C; the first character is always of the key."""
    if word[1:3] in ("->", "=>") and len(word) > 3:
        return word[0], word[3:]
    if word[1:2] in (">", "=", "→"):
        return word[0], word[2:]
    parts = _JOINED.fullmatch(word)
    return (parts[1], parts[2]) if parts else None


def _pressed(words: Sequence[str], presses: Sequence[Press]) -> bytes:
    """Return the code of the key that the words name; by that code it is then looked for."""
    modifiers, names = set(), []
    for word in words:
        control, joined = _CONTROL.fullmatch(word), _WITH_MODIFIER.fullmatch(word)
        if control is not None:
            modifiers.add("control")
            word = control[1]
        elif joined is not None:
            modifiers.add(MODIFIERS[joined[1].lower()])
            word = joined[2]
        if word.lower() in MODIFIERS:
            modifiers.add(MODIFIERS[word.lower()])
        elif word.lower() not in _FILLING:
            names.append(word)
    name = " ".join(names)
    found = _named(name, sorted(modifiers), presses)
    if found is not None:
        return found.code
    if modifiers or not name:
        told = " ".join(words)
        raise UsageError(
            f'--keys must name keys of the profile, in words such as {FORMS}, not "{told}"'
        )
    return told_bytes(name)


def _named(name: str, modifiers: Sequence[str], presses: Sequence[Press]) -> Press | None:
    """Return the press of the key that is called so; None of one character that is a code."""
    if len(name) == 1 and not modifiers:
        return None
    wanted = _OTHER_NAMES.get(name.lower(), name.lower())
    for press in presses:
        names = (press.key, press.legend.lower(), *press.legend.lower().split(" "))
        if list(press.modifiers) == list(modifiers) and wanted in names:
            return press
    return None


def _came(word: str) -> bytes:
    if word.lower() in NOTHING:
        return b""
    if word.lower() in _NAMED_CODES:
        return _NAMED_CODES[word.lower()]
    return told_bytes(word, is_eight_bits=True)
