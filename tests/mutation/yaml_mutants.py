"""Mutants of a YAML file: one value of it is changed, or one item of a list is left out.

The text is changed where the value stands, so that the rest of the file stays as people wrote it.
"""

import re
from collections.abc import Iterator
from typing import NamedTuple

import yaml

WORDS = {
    "parity": ("none", "even", "odd"),
    "handshake": ("none", "xon-xoff", "rts-cts"),
    "edge": ("stay", "scroll", "wrap", "next-row"),
    "last_column": ("next-row", "stay", "pending"),
    "last_row": ("scroll", "stay", "wrap"),
    "power_up": ("random", "blank"),
    "pairing": ("bit", "typewriter"),
    "repeat": ("key", "automatic", "none"),
    "start": ("keep", "none", "fresh"),
    "command": ("left", "right", "up", "down", "return", "home", "clear"),
    "normal": ("on-line", "local", "full", "half"),
}
"""Key -> words that can stand there, each changed to the next one."""
OTHER_EDGES = {"keep": "clamp", "clamp": "keep", "return": "stay"}
"""The edges of addressing, and those of inserting and deleting rows."""
TOGGLED = {"yes": "no", "no": "yes", "true": "false", "false": "true"}
CODES = ("BEL", "BS", "HT", "LF", "VT", "FF", "CR", "SUB", "ESC", "RS", "DEL", "SP")
CODE_KEYS = ("bytes", "code", "also", "reply", "with")


class Mutant(NamedTuple):
    """One change of a text: what stands from one index to another is replaced."""

    location: str
    """The keys and names that lead to the value: commands.tab.edge."""
    start: int
    end: int
    value: str

    def of(self, text: str) -> str:
        """Return the text with the change made."""
        return text[: self.start] + self.value + text[self.end :]


def next_of(words: tuple[str, ...], word: str) -> str:
    return words[(words.index(word) + 1) % len(words)]


def steps(value: str) -> list[str]:
    """Return a number one more and one less, in its last digit; nothing for another value."""
    if re.fullmatch(r"[0-9A-F]+h", value):
        number = int(value[:-1], 16)
        return [f"{number + step:02X}h" for step in (1, -1)]
    if not re.fullmatch(r"-?\d+(\.\d+)?", value):
        return []
    decimals = len(value.partition(".")[2])
    step = 10**-decimals
    return [f"{float(value) + step:.{decimals}f}", f"{float(value) - step:.{decimals}f}"]


def other_codes(value: str) -> list[str]:
    """Return the bytes with another last character or another control code."""
    changed = []
    if match := re.fullmatch(r'(.*)([!-}])"', value):
        other = chr(ord(match[2]) + 1).replace('"', "#")
        changed.append(f'{match[1]}{other}"')
    words = value.split(" ")
    for index, word in enumerate(words):
        if word in CODES:
            changed.append(" ".join((*words[:index], next_of(CODES, word), *words[index + 1 :])))
    return changed


def other_values(key: str, value: str) -> list[str]:
    """Return what can stand in the place of a value, by its key."""
    if key in CODE_KEYS:
        return ["'" + code.replace("'", "''") + "'" for code in other_codes(value)]
    if value in WORDS.get(key, ()):
        return [next_of(WORDS[key], value)]
    if key == "edge" and value in OTHER_EDGES:
        return [OTHER_EDGES[value]]
    if value in TOGGLED:
        return [TOGGLED[value]]
    return steps(value)


def name_of(node: yaml.Node, index: int) -> str:
    """Return the id or name of an item of a list, or its index."""
    if isinstance(node, yaml.MappingNode):
        names = {key.value: value.value for key, value in node.value}
        return str(names.get("id") or names.get("name") or index)
    return str(index)


def line_start(text: str, index: int) -> int:
    return text.rindex("\n", 0, index) + 1


def span_of_item(sequence: yaml.SequenceNode, index: int, text: str) -> tuple[int, int]:
    """Return from where to where an item stands, with the comma or the lines that are its own."""
    item = sequence.value[index]
    start, end = item.start_mark.index, item.end_mark.index
    following = end_of_sequence = sequence.end_mark.index
    if index + 1 < len(sequence.value):
        following = sequence.value[index + 1].start_mark.index
    if not sequence.flow_style:
        return line_start(text, start), line_start(text, following)
    if following != end_of_sequence:
        return start, following
    if index:
        start = sequence.value[index - 1].end_mark.index
    return start, end


def mutants_below(node: yaml.Node | None, location: str, key: str, text: str) -> Iterator[Mutant]:
    """Yield every mutant of a node, which stands at a location, under a key."""
    if isinstance(node, yaml.ScalarNode):
        for value in other_values(key, node.value):
            yield Mutant(location, node.start_mark.index, node.end_mark.index, value)
    if isinstance(node, yaml.MappingNode):
        for name, value in node.value:
            of_value = f"{location}.{name.value}".removeprefix(".")
            yield from mutants_below(value, of_value, name.value, text)
    if isinstance(node, yaml.SequenceNode):
        for index, item in enumerate(node.value):
            of_item = f"{location}.{name_of(item, index)}"
            yield Mutant(of_item, *span_of_item(node, index, text), "")
            yield from mutants_below(item, of_item, key, text)


def mutants(text: str) -> list[Mutant]:
    """Return every mutant of the text of a YAML file, in the order of the file."""
    return list(mutants_below(yaml.compose(text), "", "", text))
