"""Whether the codings of two commands can be taken for one another."""

import enum
from collections.abc import Iterable

_DIGITS = b"0123456789"


class Slot(enum.Enum):
    """What stands in a slot."""

    ONE_BYTE = "any one byte"
    DIGITS = "one or more decimal digits"


Item = int | Slot
"""A code, or what stands in a slot."""


def items_of(template: Iterable[bytes | str], kind: Slot) -> list[Item]:
    """Return the codes of a template one by one, with `kind` for each slot."""
    items: list[Item] = []
    for part in template:
        if isinstance(part, str):
            items.append(kind)
        else:
            items.extend(part)
    return items


def are_alike(one: list[Item], other: list[Item]) -> bool:
    """Tell whether bytes that one coding stands for can begin, or equal, some of the other's."""
    todo = [(0, 0)]
    seen: set[tuple[int, int]] = set()
    while todo:
        here, there = todo.pop()
        if here == len(one) or there == len(other):
            return True
        if (here, there) not in seen:
            seen.add((here, there))
            todo += [(here + a, there + b) for a, b in _steps(one[here], other[there])]
    return False


def _steps(one: Item, other: Item) -> tuple[tuple[int, int], ...]:
    """Return how far two items can go on together; digits may also stay, for more of them."""
    if one is other is Slot.DIGITS:
        return (1, 0), (0, 1), (1, 1)
    if one is Slot.DIGITS and _may_be_digit(other):
        return (0, 1), (1, 1)
    if other is Slot.DIGITS and _may_be_digit(one):
        return (1, 0), (1, 1)
    if one == other or Slot.ONE_BYTE in (one, other):
        return ((1, 1),)
    return ()


def _may_be_digit(item: Item) -> bool:
    return item is Slot.ONE_BYTE or item in tuple(_DIGITS)
