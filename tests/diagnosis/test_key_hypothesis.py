"""One thing that could be wrong: its weight, and where it shows."""

from termprobe.board.faults.catalogue import fault
from termprobe.diagnosis.key_hypothesis import (
    WEIGHT_OF_HEALTHY,
    WEIGHTS,
    nothing_wrong,
    outcome_of,
    supposed,
    supposed_fault,
)
from termprobe.diagnosis.key_outcomes import Outcome
from termprobe.plan.presses import chord_presses, coded_presses
from termprobe.profile.load import load

PROFILE = load("ecma48-24x80")


def test_nothing_is_as_common_as_a_healthy_keyboard():
    assert max(WEIGHTS.values()) < WEIGHT_OF_HEALTHY and min(WEIGHTS.values()) > 0
    assert 10 * WEIGHTS["key-dead"] <= WEIGHT_OF_HEALTHY


RANKS = (
    {"silent"},
    {"format", "parity"},
    {"key-dead", "key-flaky"},
    {"key-bounces", "speed"},
    {"row-open", "column-open", "shift-dead", "control-dead", "stuck"}
    | {"pairing", "control", "letters"},
    {"shift-stuck", "control-stuck", "inverted", "fixed", "ratio"},
    {"rows-bridged", "columns-bridged", "bridged"},
    {"rows-swapped", "columns-swapped", "keys-swapped", "swapped"},
    {"diode-shorted"},
)
"""Kinds from the most to the least common; those of a set are as common as one another."""


def test_cables_and_formats_are_more_common_than_contacts_and_these_than_lines_and_layout():
    weights = [{WEIGHTS[kind] for kind in kinds} for kinds in RANKS]
    assert all(len(of_rank) == 1 for of_rank in weights)
    in_order = [weight for of_rank in weights for weight in of_rank]
    assert in_order == sorted(set(in_order), reverse=True)
    assert set().union(*RANKS) == WEIGHTS.keys()


def test_a_cause_weighs_what_its_kind_does():
    assert supposed("host/speed/0.9", "slow", "link", {}).weight == WEIGHTS["speed"]
    bridged = fault(PROFILE, "keyboard-code/bridged/0-1/low")
    found = supposed_fault(bridged, {})
    assert found.weight == WEIGHTS["bridged"]
    assert (found.name, found.title, found.block) == (bridged.name, bridged.title, bridged.block)


def test_changes_are_the_presses_of_which_something_else_comes():
    right, wrong = (Outcome.of(b"q"),), (Outcome.of(b""),)
    healthy = nothing_wrong({"press/q": right, "press/w": right})
    one = supposed(
        "key-matrix/key-dead/q", "dead", "key-matrix", healthy.sends | {"press/q": wrong}
    )
    assert one.changes(healthy) == {"press/q": wrong} and not healthy.changes(healthy)


def test_codes_of_keys_held_together_are_compared_without_repeats():
    press, chord = coded_presses(PROFILE)[0], chord_presses(PROFILE)[0]
    assert outcome_of(press, b"aa", "parity") == Outcome(b"aa", "parity")
    assert outcome_of(chord, b"aba") == Outcome(b"ab")
