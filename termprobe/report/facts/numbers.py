"""Numbers and lists as people read them. Pure."""

from collections.abc import Sequence


def counted(count: int, noun: str) -> str:
    """Return `1 step`, `1,920 steps`."""
    return f"{count:,} {noun}" if count == 1 else f"{count:,} {noun}s"


def is_or_are(count: int) -> str:
    """Return `is` for one, else `are`."""
    return "is" if count == 1 else "are"


def share_in_words(done: int, of_all: int) -> str:
    """Return `100 %`, `99.5 %`, `0.0 %`; what is not whole is never rounded up to it."""
    if done >= of_all:
        return "100 %"
    return f"{min(99.9, 100 * done / of_all):.1f} %"


def listed(names: Sequence[str]) -> str:
    """Return `a`, `a and b`, `a, b and c`."""
    *others, last = names
    return f"{', '.join(others)} and {last}" if others else last
