"""Text folded into the lines of a plain page, and lists of which only the first are told."""

import textwrap
from collections.abc import Sequence

from termprobe.notation import visible


def folded(first: str, text: str, columns: int, indent: int | None = None) -> list[str]:
    """Return `first` and `text` as lines of at most `columns` (1 or more) characters, at least one.

    Both are made harmless to a console. Lines break at blanks alone, never at hyphens; only a word
    that is longer than a line is parted. The lines behind the first are indented by `indent`
    blanks, or by the length of `first`.
    """
    head = visible(first)
    words = head.lstrip(" ")
    if indent is None:
        indent = len(head)
    lines = textwrap.wrap(
        words + visible(text),
        columns,
        initial_indent=head.removesuffix(words),
        subsequent_indent=" " * indent,
        break_on_hyphens=False,
    )
    return lines or [head]


def first_of(texts: Sequence[str], most: int, between: str = ", ") -> str:
    """Return `a, b, c and 4 more`: at most so many of the texts, and how many are left out.

    Texts that may have commas stand apart by another mark `between` them.
    """
    told = between.join(texts[:most])
    left_out = len(texts) - most
    return f"{told} and {left_out} more" if left_out > 0 else told
