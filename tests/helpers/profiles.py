"""Profiles made up for tests: every action, every edge and every coding of coordinates."""

import dataclasses

from hypothesis import strategies as st

from termprobe.profile.load import load
from termprobe.profile.model import Command, Coordinates, Keyboard
from termprobe.profile.vocabulary import VOCABULARY
from termprobe.yamlvalues import Template

BASE = load("singlebyte-24x80")
LETTERS = "ABCDEFGHIJKLMNOPQRSTUVWXYZ?=&@_^+-<>/abcdefgh"
"""One for each action, in the order of the vocabulary."""

FEW = ("1", "2", "3", "q", "w", "e", "a", "s", "d", "left-shift", "control")
"""Names of keys that all profiles have."""


def small(profile):
    """Return the profile with a few of its keys only."""
    keys = tuple(key for key in profile.keyboard.keys if key.name in FEW)
    return dataclasses.replace(profile, keyboard=dataclasses.replace(profile.keyboard, keys=keys))


def with_every_action(edges, coordinates, grammar="codes", **display):
    """Return a small profile in which ESC and a letter start each action, with all its slots.

    `edges`: action -> its edge.
    """
    commands = tuple(
        _command(letter, action, edges, coordinates)
        for letter, action in zip(LETTERS, VOCABULARY, strict=False)
    )
    printing = {name: display.pop(name) for name in ("last_column", "last_row") if name in display}
    screen = dataclasses.replace(
        BASE.display,
        **{"rows": 5, "columns": 12, "tab_stops": 4} | display,
        printing=dataclasses.replace(BASE.display.printing, **printing),
    )
    return dataclasses.replace(
        BASE,
        display=screen,
        commands=commands,
        coordinates=coordinates,
        grammar=grammar,
        keyboard=None,
        circuit=None,
    )


def _command(letter, action, edges, coordinates):
    rule = VOCABULARY[action]
    slots = rule.slots
    between = [b";"] * len(slots) if coordinates.coding == "decimal" else [b""] * len(slots)
    parts = [b"\x1b" + letter.encode()]
    for slot, end in zip(slots, between, strict=True):
        parts += [slot, end] if end else [slot]
    reply = Template(("row", b";", "column", b"\r")) if action == "reply" else None
    edge = edges.get(action, rule.edges[0]) if rule.edges else None
    return Command(
        name=action, bytes=Template(parts), action=action, source="made up", edge=edge, reply=reply
    )


def keyboard(*keys, **rules):
    """Return a Keyboard of the keys; `rules` replace those of a plain one."""
    settings = {
        "pairing": "bit",
        "control": "and-1Fh",
        "letters": "both-cases",
        "repeat": "none",
        "rows": 8,
        "columns": 8,
        "diodes": False,
        "source": "unverified",
    } | rules
    return Keyboard(keys=keys, **settings)


def profiles():
    """Generate profiles of with_every_action."""
    edges = st.fixed_dictionaries(
        {action: st.sampled_from(rule.edges) for action, rule in VOCABULARY.items() if rule.edges}
    )
    coordinates = st.one_of(
        st.builds(
            Coordinates,
            st.sampled_from(["binary", "bcd", "decimal"]),
            st.just(0),
            st.integers(0, 1),
        ),
        st.builds(Coordinates, st.just("offset"), st.integers(1, 0x60), st.integers(0, 1)),
    )
    return st.builds(
        with_every_action,
        edges,
        coordinates,
        st.sampled_from(["codes", "ecma48"]),
        tab_stops=st.integers(0, 13),
        rows=st.integers(1, 6),
        columns=st.integers(1, 13),
        last_column=st.sampled_from(["next-row", "pending", "overwrite"]),
        last_row=st.sampled_from(["scroll", "wrap", "stay"]),
    )


def streams():
    """Generate bytes that such a profile can mostly follow."""
    start = st.sampled_from(LETTERS).map(lambda letter: b"\x1b" + letter.encode())
    number = st.one_of(
        st.binary(min_size=1, max_size=2),
        st.integers(0, 99999).map(lambda value: b"%d;" % value),
        st.just(b";"),
    )
    text = st.text(st.characters(min_codepoint=0x20, max_codepoint=0x7E), max_size=30).map(
        str.encode
    )
    return st.lists(st.one_of(start, start, number, text, st.binary(max_size=4)), max_size=40).map(
        b"".join
    )
