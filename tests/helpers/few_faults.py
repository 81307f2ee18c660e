"""A catalogue of a few faults, where it does not matter of which something is worked out."""

from termprobe.board.faults.catalogue import catalogue
from termprobe.diagnosis import dictionary, passed_coverage, showing


def few(profile):
    """Return every twentieth fault alone."""
    faults = catalogue(profile)
    return {name: faults[name] for name in list(faults)[::20]}


def play_few(monkeypatch):
    """Let fault dictionaries, and what is told by them, be made of few faults.

    What is kept of a profile as long as this process lasts is not made of them.
    """
    monkeypatch.setattr(showing, "names_of_display", showing.names_of_display.__wrapped__)
    for module in (dictionary, passed_coverage, showing):
        monkeypatch.setattr(module, "catalogue", few)
