"""A record that has no hash as the key of what is kept of it."""

from typing import Generic, TypeVar

Held = TypeVar("Held")


class Itself(Generic[Held]):
    """Is equal where it holds the same object; one that is alike is another.

    It holds the object, so that no other gets its id.
    """

    def __init__(self, held: Held) -> None:
        self.held = held

    def __eq__(self, other: object) -> bool:
        return isinstance(other, Itself) and self.held is other.held

    def __hash__(self) -> int:
        return id(self.held)
