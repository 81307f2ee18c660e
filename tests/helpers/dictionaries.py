"""The fault dictionary of the acceptance script, worked out once for all tests."""

import functools

from helpers.scripts import SINGLE, acceptance
from termprobe import yamlfile
from termprobe.cli.kept_dictionary import kept_dictionary


@functools.cache
def of_acceptance():
    """Return the FaultDictionary of the acceptance script on singlebyte-24x80."""
    return kept_dictionary(acceptance(), SINGLE, profile_text())


def shown_faults(dictionary):
    """Return the names of the faults that looks show; wrong clocks depend on how one sends."""
    names = [name for name, shown in dictionary.faults.items() if shown != dictionary.good]
    return [name for name in names if not name.startswith("baud")]


def profile_text():
    """Return the text of the profile singlebyte-24x80."""
    return yamlfile.read_text(yamlfile.find(str(SINGLE.id), "profiles"))
