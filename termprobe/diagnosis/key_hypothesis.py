"""One thing that could be wrong with what a keyboard sends: how common it is, what then comes."""

from collections.abc import Mapping
from dataclasses import dataclass

from termprobe.board.faults.model import Fault
from termprobe.diagnosis.fault_names import parsed
from termprobe.diagnosis.key_outcomes import Outcome, Predicted
from termprobe.plan.model import Press

HEALTHY = "healthy"
WEIGHTS = {
    "key-dead": 4.0,
    "key-flaky": 4.0,
    "key-bounces": 3.0,
    "row-open": 2.0,
    "column-open": 2.0,
    "shift-dead": 2.0,
    "control-dead": 2.0,
    "shift-stuck": 1.0,
    "control-stuck": 1.0,
    "rows-bridged": 0.5,
    "columns-bridged": 0.5,
    "rows-swapped": 0.3,
    "columns-swapped": 0.3,
    "keys-swapped": 0.3,
    "diode-shorted": 0.2,
    "stuck": 2.0,
    "bridged": 0.5,
    "swapped": 0.3,
    "format": 6.0,
    "parity": 6.0,
    "speed": 3.0,
    "pairing": 2.0,
    "control": 2.0,
    "letters": 2.0,
    "inverted": 1.0,
    "fixed": 1.0,
    "ratio": 1.0,
    "silent": 8.0,
}
"""How common each kind is against the others: contacts before lines, open lines and stuck bits
before bridges, layout errors last; cables and a wrong format of the host before all. The order is
that of builders' reports, from memory; the numbers are an own estimate."""
WEIGHT_OF_HEALTHY = 60.0
"""That nothing is wrong, against these; an own estimate."""

Sends = Mapping[str, Predicted]
"""Press id -> outcomes that it may have."""


@dataclass(frozen=True)
class Hypothesis:
    """One thing that could be wrong, or nothing."""

    name: str
    """A fault's name, or `host/...` and `profile/...` for causes outside the board."""
    title: str
    block: str
    weight: float
    sends: Sends

    def changes(self, healthy: "Hypothesis") -> Sends:
        """Return press id -> outcomes, for the presses that are not as on a healthy keyboard."""
        return {
            press: predicted
            for press, predicted in self.sends.items()
            if predicted != healthy.sends[press]
        }


def nothing_wrong(sends: Sends) -> Hypothesis:
    """Return the Hypothesis that all is well."""
    return Hypothesis(HEALTHY, "nothing is wrong", "", WEIGHT_OF_HEALTHY, sends)


def supposed(name: str, title: str, block: str, sends: Sends) -> Hypothesis:
    """Return the Hypothesis `name`, which weighs what its kind does."""
    return Hypothesis(name, title, block, WEIGHTS[parsed(name).kind], sends)


def supposed_fault(fault: Fault, sends: Sends) -> Hypothesis:
    """Return the Hypothesis that the board has `fault`."""
    return supposed(fault.name, fault.title, fault.block, sends)


def outcome_of(press: Press, data: bytes, error: str = "") -> Outcome:
    """Return the Outcome, as it is compared, of `press` where `data` and `error` come of it."""
    return Outcome.of(data, error).as_compared(press)
