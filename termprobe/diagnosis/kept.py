"""What takes long to work out for a profile is worked out once."""

import functools
from collections.abc import Callable
from typing import TypeVar

from termprobe.profile.model import Profile

Made = TypeVar("Made")


def once_a_profile(make: Callable[[Profile], Made]) -> Callable[[Profile], Made]:
    """Return `make` as a function that makes what it returns once for each Profile object.

    A profile has no hash. It goes by its id instead, and is held so that the id stays its own.
    """
    known: dict[int, tuple[Profile, Made]] = {}

    @functools.wraps(make)
    def kept(profile: Profile) -> Made:
        if id(profile) not in known:
            known[id(profile)] = profile, make(profile)
        return known[id(profile)][1]

    return kept
