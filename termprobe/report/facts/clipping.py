"""Texts of a report kept to a length that a page can hold, wherever they came from. Pure."""

import dataclasses
from typing import TypeVar

MOST = 2000
"""Characters of one text that are shown."""

Facts = TypeVar("Facts")


def clipped(facts: Facts) -> Facts:
    """Return `facts`, records and tuples of them, with each text of at most MOST characters.

    A longer one ends by saying how many were left out.
    """
    found: object = facts
    match facts:
        case str():
            found = clipped_text(facts)
        case tuple() if hasattr(facts, "_fields"):
            found = type(facts)(*map(clipped, facts))
        case tuple():
            found = tuple(map(clipped, facts))
        case _ if dataclasses.is_dataclass(facts) and not isinstance(facts, type):
            found = _clipped_record(facts)
    assert isinstance(found, type(facts))
    return found


def _clipped_record(facts: object) -> object:
    assert dataclasses.is_dataclass(facts) and not isinstance(facts, type)
    own = {field.name: getattr(facts, field.name) for field in dataclasses.fields(facts)}
    changed = {name: clipped(value) for name, value in own.items()}
    return dataclasses.replace(facts, **changed)


def clipped_text(text: str, most: int = MOST) -> str:
    """Return `text`, or its first `most` characters and how many more there are."""
    if len(text) <= most:
        return text
    return f"{text[:most]} … and {len(text) - most:,} characters more"
