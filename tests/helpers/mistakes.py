"""Shipped profiles with something changed, and what is found wrong with them."""

from termprobe import yamlfile
from termprobe.errors import FileError
from termprobe.profile import load

IDS = ("ecma48-24x80", "singlebyte-24x80")
SHIPPED = {
    name: (yamlfile.shipped("profiles") / f"{name}.yaml").read_text(encoding="utf-8")
    for name in IDS
}


def findings_of(text, name="p.yaml"):
    """Return the findings on the profile in `text`, none where it is good."""
    try:
        load.parse(text, name)
    except FileError as error:
        return error.findings
    return ()


def changed(old, new, profile="singlebyte-24x80"):
    """Return a shipped profile's text with its first `old` replaced."""
    assert old in SHIPPED[profile]
    return SHIPPED[profile].replace(old, new, 1)


def one_finding(old, new, profile="singlebyte-24x80"):
    """Return the one finding on a shipped profile of which the first `old` is replaced."""
    found = findings_of(changed(old, new, profile))
    assert len(found) == 1, "\n".join(found)
    return found[0]
