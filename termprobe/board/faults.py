"""The faults that a board can have, by name."""

from termprobe.errors import UsageError


def catalogue(profile):  # pylint: disable=unused-argument
    """Return fault name -> Fault."""
    return {}


def fault(profile, name):
    """Return the Fault called `name`; raise UsageError where there is none."""
    known = catalogue(profile)
    if name not in known:
        raise UsageError(f'fault must be one of those that `termprobe sim --faults` lists, not "{name}"')
    return known[name]
