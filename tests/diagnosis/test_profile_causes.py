"""A keyboard that is right where the profile is wrong."""

import dataclasses
import string

from helpers.key_walks import walked
from termprobe.diagnosis.key_conclusion import conclude
from termprobe.diagnosis.key_outcomes import Outcome
from termprobe.diagnosis.profile_causes import wrong_rules
from termprobe.plan.presses import coded_presses
from termprobe.profile.load import load

PROFILE = load("singlebyte-24x80")
TYPEWRITER = dict(zip("123456789", b"!@#$%^&*(", strict=True))


def first_suspect(changed):
    """Return what is concluded of a healthy keyboard but for the press ids `changed`."""
    came = {press: [Outcome.of(code)] for press, code in changed.items()}
    return conclude(PROFILE, walked(PROFILE) | came).suspects[0]


def test_a_keyboard_of_the_other_pairing_is_told():
    """A typewriter-paired keyboard under a profile that says bit-paired; pairs as published."""
    changed = {f"press/{key}+shift": bytes([code]) for key, code in TYPEWRITER.items()}
    first = first_suspect(changed | {"press/minus+shift": b"_", "press/semicolon+shift": b":"})
    assert "profile/pairing/typewriter" in first.faults and first.block == "profile"
    assert "press/2+shift" in first.supports


def test_a_keyboard_that_sends_capitals_only_is_told():
    capitals = {f"press/{letter}": letter.upper().encode() for letter in string.ascii_lowercase}
    assert "profile/letters/upper-only" in first_suspect(capitals).faults


def supposed(**rules):
    """Return the rules that may be wrong where the profile says `rules`."""
    keyboard = dataclasses.replace(PROFILE.keyboard, **rules)
    profile = dataclasses.replace(PROFILE, keyboard=keyboard)
    return [one.name for one in wrong_rules(profile, coded_presses(profile))]


def test_each_rule_is_supposed_to_be_another_one_than_the_profile_says():
    assert supposed() == [
        "profile/pairing/typewriter",
        "profile/control/xor-40h",
        "profile/letters/upper-only",
    ]
    assert supposed(pairing="typewriter", control="xor-40h", letters="upper-only") == [
        "profile/pairing/bit",
        "profile/control/and-1Fh",
    ]


def test_where_every_shifted_code_is_written_out_no_pairing_is_supposed():
    assert "profile/pairing/bit" not in supposed(pairing="none")
    keyless = dataclasses.replace(PROFILE, keyboard=None)
    assert not list(wrong_rules(keyless, ()))
