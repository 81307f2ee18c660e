"""A catalogue of a few faults, where it does not matter of which something is worked out."""

import inspect

from termprobe.board.faults.catalogue import catalogue
from termprobe.diagnosis import dictionary, passed_coverage, showing


def few(profile):
    """Return every twentieth fault alone."""
    faults = catalogue(profile)
    return {name: faults[name] for name in list(faults)[::20]}


def play_few(monkeypatch):
    """Let fault dictionaries, and what is told by them, be made of few faults."""
    play_those(monkeypatch, few, dictionary, passed_coverage, showing)


def play_those(monkeypatch, faults_of, *modules):
    """Let `modules` have faults_of(profile) for the catalogue.

    What is kept of a profile as long as this process lasts is not made of them: other tests of the
    process would go by it.
    """
    monkeypatch.setattr(showing, "names_of_display", inspect.unwrap(showing.names_of_display))
    for module in modules:
        monkeypatch.setattr(module, "catalogue", faults_of)
