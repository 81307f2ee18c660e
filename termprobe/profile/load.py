"""Reads profiles by id or path."""

from termprobe import yamlfile
from termprobe.profile.check import check
from termprobe.profile.model import Profile


def load(name: str) -> Profile:
    """Return the Profile that `name`, an id or a path, stands for.

    Raise FileError with every finding.
    """
    path = yamlfile.find(name, "profiles")
    return parse(yamlfile.read_text(path), str(path))


def parse(text: str, name: str) -> Profile:
    """Return the Profile written in `text`; `name` stands in the findings.

    Raise FileError with every finding.
    """
    return yamlfile.build(text, name, Profile, (check,))
