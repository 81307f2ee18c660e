"""Faults of the line's clock: it runs at another speed than it should."""

import re
from collections.abc import Iterator
from functools import partial

from termprobe.board.faults.model import Fault, make
from termprobe.board.wiring import Wiring
from termprobe.errors import UsageError
from termprobe.profile.model import Profile

BLOCKS = ("baud",)
USUAL_RATIOS = ("0.5", "2")
"""A divider that divides once too often, or not at all. Any other can be asked for by name."""
_NAME = re.compile(r"baud/ratio/(\d{1,3}(?:\.\d{1,6})?)")


def faults(profile: Profile) -> Iterator[Fault]:
    """Yield the usual ones."""
    for ratio in USUAL_RATIOS:
        yield fault_named(profile, f"baud/ratio/{ratio}")


def fault_named(_profile: Profile, name: str) -> Fault:
    """Return the fault `baud/ratio/RATIO`; raise UsageError where RATIO is none."""
    parts = _NAME.fullmatch(name)
    if not parts or not 0.01 <= float(parts[1]) <= 100:
        raise UsageError(
            "a fault of the line's clock must be baud/ratio/RATIO, "
            f'a number from 0.01 to 100, not "{name}"'
        )
    title = f"the line's clock runs {parts[1]} times as fast as it should"
    return make(name, title, partial(_run_at, float(parts[1])))


def _run_at(ratio: float, wiring: Wiring) -> None:
    wiring.speed_ratio = ratio
