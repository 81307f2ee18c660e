"""The fault dictionary of a plan, worked out once and kept."""

import sys

from termprobe.cli.patience import Patience
from termprobe.diagnosis.cache_folder import find, keep, key_of
from termprobe.diagnosis.dictionary import FaultDictionary, fault_dictionary
from termprobe.diagnosis.dictionary_form import WRONG_FORM, dictionary_bytes, dictionary_of
from termprobe.errors import UsageError
from termprobe.plan.model import Plan
from termprobe.profile.model import Profile

WHAT_FOR = "Simulating boards with every fault, to see which looks show it"


def kept_dictionary(plan: Plan, profile: Profile, profile_text: str) -> FaultDictionary:
    """Return the FaultDictionary of `plan` for boards of `profile`.

    Where it takes longer than a moment, a line on standard error says so. Raise UsageError where
    no such board can be simulated.
    """
    name = f"dictionary-{key_of(profile_text, plan.hash)}"
    try:
        return dictionary_of(find(name) or b"")
    except WRONG_FORM:
        made = _worked_out(plan, profile)
        keep(name, dictionary_bytes(made))
        return made


def dictionary_beside(plan: Plan, profile: Profile, profile_text: str) -> FaultDictionary:
    """Return the same, worked out beside something else: no line is said, no process begun."""
    name = f"dictionary-{key_of(profile_text, plan.hash)}"
    try:
        return dictionary_of(find(name) or b"")
    except WRONG_FORM:
        made = fault_dictionary(profile, plan, is_beside=True)
        keep(name, dictionary_bytes(made))
        return made


def dictionary_found(plan: Plan, profile_text: str) -> FaultDictionary | None:
    """Return the kept_dictionary where it has been worked out already, else None."""
    name = f"dictionary-{key_of(profile_text, plan.hash)}"
    try:
        return dictionary_of(find(name) or b"")
    except WRONG_FORM:
        return None


def dictionary_if_simulated(
    plan: Plan, profile: Profile, profile_text: str
) -> FaultDictionary | None:
    """Return the kept_dictionary; None where no such board can be simulated."""
    try:
        return kept_dictionary(plan, profile, profile_text)
    except UsageError:
        return None


def _worked_out(plan: Plan, profile: Profile) -> FaultDictionary:
    patience = Patience(WHAT_FOR, sys.stderr)
    try:
        return fault_dictionary(profile, plan, patience.told)
    finally:
        patience.end()
