"""What is worked out once for each profile."""

import dataclasses

from termprobe.diagnosis.kept import once_a_profile
from termprobe.profile.load import load


def test_each_profile_object_is_worked_on_once():
    worked_on = []

    @once_a_profile
    def title(profile):
        worked_on.append(profile)
        return profile.title

    profile = load("singlebyte-24x80")
    other = dataclasses.replace(profile, title="other")
    assert [title(one) for one in (profile, other, profile)] == [
        profile.title,
        "other",
        profile.title,
    ]
    assert worked_on == [profile, other]
