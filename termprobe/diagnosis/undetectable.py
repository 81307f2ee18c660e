"""Which faults make no difference, whatever a board is sent and whatever is pressed, and why.

It is proven by the wiring, never by trying: where no rule holds, a fault counts as one that could
be seen.
"""

from collections.abc import Iterable

from termprobe.board.faults.model import Fault
from termprobe.board.wiring import Wiring, wire
from termprobe.diagnosis.proof import Rewired
from termprobe.diagnosis.proof_display import DISPLAY_PROOFS
from termprobe.diagnosis.proof_keyboard import KEYBOARD_PROOFS
from termprobe.profile.model import Profile

PROOFS = (*DISPLAY_PROOFS, *KEYBOARD_PROOFS)


def undetectable(profile: Profile, faults: Iterable[Fault]) -> dict[str, str]:
    """Return by the name of each of `faults` that cannot be told from a good board why, in words.

    Raise UsageError where `profile` has no circuit.
    """
    good = wire(profile)
    reasons = {fault.name: _why(profile, good, fault) for fault in faults}
    return {name: why for name, why in reasons.items() if why}


def _why(profile: Profile, good: Wiring, fault: Fault) -> str:
    faulty = wire(profile)
    fault.apply(faulty)
    return why_alike(Rewired(profile, good, faulty))


def why_alike(changed: Rewired) -> str:
    """Return in words why the two boards are alike; empty where no rule proves it."""
    parts = changed.parts
    for rule in PROOFS:
        if parts <= rule.parts and rule.holds(changed):
            return rule.why
    return ""
