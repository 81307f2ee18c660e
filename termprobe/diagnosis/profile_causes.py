"""What a healthy keyboard sends where one rule of the profile is wrong."""

import dataclasses
from collections.abc import Iterator, Sequence
from typing import Literal, NamedTuple

from termprobe.diagnosis.key_hypothesis import Hypothesis, outcome_of, supposed
from termprobe.plan.model import Press
from termprobe.profile.key_codes import code_of
from termprobe.profile.model import Keyboard, Profile

PAIRINGS: tuple[Literal["bit", "typewriter"], ...] = ("bit", "typewriter")
CONTROLS: tuple[Literal["and-1Fh", "xor-40h"], ...] = ("and-1Fh", "xor-40h")


class _Rule(NamedTuple):
    """A rule of the profile that may be wrong."""

    name: str
    title: str
    keyboard: Keyboard
    """The keyboard with the rule that holds instead."""


def wrong_rules(profile: Profile, presses: Sequence[Press]) -> Iterator[Hypothesis]:
    """Yield each rule by which the keyboard may form its codes against what the profile says."""
    if profile.keyboard is None:
        return
    for rule in (*_pairings(profile.keyboard), *_controls(profile.keyboard)):
        sends = {press.id: (outcome_of(press, _formed(rule.keyboard, press)),) for press in presses}
        yield supposed(f"profile/{rule.name}", rule.title, "profile", sends)


def _pairings(keyboard: Keyboard) -> Iterator[_Rule]:
    if keyboard.pairing == "none":
        return
    for other in PAIRINGS:
        if other != keyboard.pairing:
            title = f"the keyboard is {other}-paired, and the profile says {keyboard.pairing}"
            changed = dataclasses.replace(keyboard, pairing=other)
            yield _Rule(f"pairing/{other}", title, changed)


def _controls(keyboard: Keyboard) -> Iterator[_Rule]:
    for other in CONTROLS:
        if other != keyboard.control:
            title = f"CONTROL forms codes by {other}, and the profile says {keyboard.control}"
            changed = dataclasses.replace(keyboard, control=other)
            yield _Rule(f"control/{other}", title, changed)
    if keyboard.letters == "both-cases":
        title = "the keyboard sends capitals only, and the profile says both cases"
        changed = dataclasses.replace(keyboard, letters="upper-only")
        yield _Rule("letters/upper-only", title, changed)


def _formed(keyboard: Keyboard, press: Press) -> bytes:
    """Return what `keyboard` sends for `press`, the keys held before it included."""
    keys = {str(key.name): key for key in keyboard.keys}
    modifiers = frozenset(press.modifiers)
    codes = [code_of(keyboard, keys[name], modifiers) for name in (*press.held, press.key)]
    return b"".join(code or b"" for code in codes)
