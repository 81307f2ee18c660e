"""Coverage of each profile by each script: faults, looks, seconds, smallest sets, times."""

import time

from helpers.scripts import spared
from termprobe.diagnosis.coverage import coverage_of
from termprobe.diagnosis.dictionary import fault_dictionary
from termprobe.diagnosis.dictionary_form import dictionary_bytes, dictionary_of
from termprobe.plan.covered import asked_of
from termprobe.plan.effort import effort
from termprobe.profile.load import load

from .tables import heading, row

PROFILES = ("singlebyte-24x80", "club-16x64", "ecma48-24x80")
SCRIPTS = ("acceptance", "quick", "keyboard")
SPEEDS_BAUD = (300, 1200, 9600)
BITS_OF_A_CHARACTER = 10


def play(request):
    heading(
        "Coverage; seconds of a good board at 300, 1200 and 9600 baud, those of the eyes included",
        *("profile", "script", "shown of those that can be", "classes", "looks, presses"),
        *("seconds", "smallest set (bound)", "worked out, read again"),
    )
    for profile_id in PROFILES:
        for script in SCRIPTS:
            _show(profile_id, script)


def _show(profile_id, script):
    profile, plan = load(profile_id), spared(script, profile_id)
    asked = asked_of([step for step in plan.steps if not step.not_fitted])
    costs = [effort(asked, BITS_OF_A_CHARACTER / speed) for speed in SPEEDS_BAUD]
    seconds = ", ".join(f"{cost.sending_s + cost.looking_s:.0f}" for cost in costs)
    shown = ("no circuit", "-"), ("-", "-")
    if profile.circuit is not None:
        shown = _shown(profile, plan)
    looks = f"{costs[0].looks}, {costs[0].presses}"
    row(profile_id, script, *shown[0], looks, seconds, *shown[1])


def _shown(profile, plan):
    """Return what is shown and in how many classes; then the smallest set, and times."""
    start_s = time.monotonic()
    dictionary = fault_dictionary(profile, plan)
    cold_s = time.monotonic() - start_s
    kept = dictionary_bytes(dictionary)
    start_s = time.monotonic()
    dictionary_of(kept)
    kept_s = time.monotonic() - start_s
    found = coverage_of(dictionary, plan, profile)
    can_be = len(found.detected) + len(found.missed)
    shown = f"{len(found.detected)} of {can_be}, {len(found.detected) / can_be:.1%}"
    smallest = f"{found.smallest.cost} ({found.smallest.lower_bound})"
    return (shown, found.classes), (smallest, f"{cold_s:.1f} s, {1000 * kept_s:.0f} ms")
