"""Reads profiles by id or path."""

from functools import lru_cache

from termprobe import yamlfile
from termprobe.errors import FileError
from termprobe.profile.check import check
from termprobe.profile.model import Profile

KEPT = 16
"""Texts whose profiles are kept: a run file holds the text of its profile, and several may have the
same. What is worked out for a profile is then worked out once for all of them."""


def load(name: str) -> Profile:
    """Return the Profile that `name`, an id or a path, stands for.

    Raise FileError with every finding.
    """
    path = yamlfile.find(name, "profiles")
    return parse(yamlfile.read_text(path), str(path))


def parse(text: str, name: str) -> Profile:
    """Return the Profile written in `text`, the same for the same text.

    Raise FileError with every finding, in which `name` stands.
    """
    try:
        return _good(text)
    except FileError:
        return yamlfile.build(text, name, Profile, (check,))


@lru_cache(maxsize=KEPT)
def _good(text: str) -> Profile:
    return yamlfile.build(text, "", Profile, (check,))
