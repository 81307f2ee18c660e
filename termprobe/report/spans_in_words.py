"""Spans of time as people say them, and as they write them."""

import re

_UNITS_S = {"s": 1, "m": 60, "h": 3600, "d": 86400}
_WRITTEN = re.compile(r"([0-9]+(?:\.[0-9]+)?)([smhd]?)")


def span_from(text: str) -> float | None:
    """Return the seconds that `90`, `90s`, `10m`, `24h` or `7d` stand for; None for others."""
    found = _WRITTEN.fullmatch(text.strip().lower())
    if not found:
        return None
    return float(found[1]) * _UNITS_S[found[2] or "s"]


def span_in_words(seconds: float) -> str:
    """Return `3.2 s`, `4 min 10 s`, `2 h 5 min` or `3 d 4 h`: two units at most."""
    if seconds < 10:
        return f"{seconds:.1f} s"
    whole = round(seconds)
    for large, small, of_large, of_small in (
        ("d", "h", 86400, 3600),
        ("h", "min", 3600, 60),
        ("min", "s", 60, 1),
    ):
        if whole >= of_large:
            rest = whole % of_large // of_small
            return f"{whole // of_large} {large}" + f" {rest} {small}" * bool(rest)
    return f"{whole} s"
