"""What is known of a mutant."""

from collections.abc import Sequence
from random import Random
from typing import NamedTuple, TypeVar

T = TypeVar("T")


class Survivor(NamedTuple):
    """A mutant that no test found."""

    location: str
    """The function, or the file and the value in it: nothing that moves with the lines."""
    diff: str
    """Unified, with the lines around."""
    how: str
    """`every test passed`, or `no test runs it`."""


def changed_lines(diff: str) -> tuple[str, ...]:
    """Return the lines that a unified diff takes out and puts in, without their indentation."""
    lines = diff.split("\n")
    changed = [line for line in lines if line[:1] in ("-", "+")]
    heads = ("--- ", "+++ ")
    return tuple(f"{line[0]} {line[1:].strip()}" for line in changed if line[:4] not in heads)


def drawn(everything: Sequence[T], sample: int, seed: int) -> list[T]:
    """Return at most `sample` of `everything`, the same ones for the same seed."""
    size = min(sample, len(everything))
    return Random(seed).sample(everything, size)
