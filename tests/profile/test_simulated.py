"""What a profile without a circuit cannot do."""

import dataclasses

from termprobe.profile.load import load
from termprobe.profile.simulated import lack_in_words

WITH_CIRCUIT = load("singlebyte-24x80")


def test_only_a_profile_without_a_circuit_lacks_something():
    bare = dataclasses.replace(WITH_CIRCUIT, circuit=None)
    assert lack_in_words(WITH_CIRCUIT) == ""
    lack = "no circuit, so no simulated board and no practice with --port sim:"
    assert lack_in_words(dataclasses.replace(bare, keyboard=None)) == lack
    assert lack_in_words(bare).startswith(f"{lack}; its keyboard alone can be simulated")
