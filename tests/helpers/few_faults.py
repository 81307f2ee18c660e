"""A catalogue of a few faults, where dictionaries are made and it does not matter of which."""

from termprobe.diagnosis import dictionary, showing


def play_few(monkeypatch):
    """Let fault dictionaries be made, and read, of every twentieth fault alone."""
    usual = dictionary.catalogue

    def few(profile):
        faults = usual(profile)
        return {name: faults[name] for name in list(faults)[::20]}

    monkeypatch.setattr(dictionary, "catalogue", few)
    monkeypatch.setattr(showing, "catalogue", few)
