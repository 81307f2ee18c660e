"""What is heard of a healthy keyboard where the transmitter, the parity bit or a clock is wrong."""

from collections.abc import Callable, Iterable, Iterator, Sequence

from termprobe.board.faults import speed
from termprobe.board.faults.bus import faults_of_bus
from termprobe.board.faults.line import parity_faults
from termprobe.board.faults.model import Fault
from termprobe.board.link import board_format
from termprobe.board.wiring import KEYBOARD_CODE, Wiring
from termprobe.diagnosis.fault_names import parsed
from termprobe.diagnosis.key_hypothesis import (
    Hypothesis,
    Sends,
    outcome_of,
    supposed,
    supposed_fault,
)
from termprobe.diagnosis.key_outcomes import Outcome
from termprobe.link.frame import heard
from termprobe.plan.model import Press
from termprobe.profile.model import Profile

TRANSMITTER = "transmitter-data"
SPEED_RATIOS = {
    "0.5": "half",
    "0.9": "90 % of",
    "0.92": "92 % of",
    "0.93": "93 % of",
    "0.94": "94 % of",
    "0.945": "94.5 % of",
    "1.055": "105.5 % of",
    "1.06": "106 % of",
    "1.07": "107 % of",
    "1.08": "108 % of",
    "1.1": "110 % of",
    "2": "twice",
}
"""The board's speed over the host's, with words: the usual mistakes, and near 1 one for each set of
bits of a 10-bit frame that are then sampled in the place of a neighbour. From 0.948 to 1.052 every
bit is sampled in its own place."""

Hears = Callable[[bytes], Sequence[tuple[int, str]]]
"""What a host hears of bytes: (code, error of the line) for each character."""


def faults_of_transmitter(
    profile: Profile, of_keyboard: Iterable[Hypothesis]
) -> Iterator[Hypothesis]:
    """Yield the faults of the transmitter's lines, for a board whose circuit is known.

    A code goes through the transmitter as it goes through the code lines of the keyboard: no press
    can tell the faults of the one from those of the other.
    """
    if profile.circuit is None:
        return
    sends = {one.name: one.sends for one in of_keyboard}
    for fault in faults_of_bus(TRANSMITTER, profile):
        alike = parsed(fault.name)._replace(where=KEYBOARD_CODE.where)
        yield supposed_fault(fault, sends[str(alike)])


def faults_of_parity_bit(profile: Profile, presses: Sequence[Press]) -> Iterator[Hypothesis]:
    """Yield the faults of the parity bit, for a board whose circuit is known."""
    if profile.circuit is None:
        return
    for fault in parity_faults(profile):
        yield supposed_fault(fault, _sends(profile, presses, fault))


def wrong_speeds(profile: Profile, presses: Sequence[Press]) -> Iterator[Hypothesis]:
    """Yield each ratio of speeds twice: as the host's mistake, and as the board's.

    The board's only where its circuit is known.
    """
    for ratio, how in SPEED_RATIOS.items():
        fault = speed.fault_named(profile, f"baud/ratio/{ratio}")
        sends = _sends(profile, presses, fault)
        title = f"the board sends at {how} the speed at which the host listens"
        yield supposed(f"host/speed/{ratio}", title, "link", sends)
        if profile.circuit is not None:
            yield supposed_fault(fault, sends)


def _sends(profile: Profile, presses: Sequence[Press], fault: Fault) -> Sends:
    """Return what a host hears of a healthy keyboard on a line with `fault`."""
    wiring, line = Wiring(), board_format(profile)
    fault.apply(wiring)

    def hears(data: bytes) -> Sequence[tuple[int, str]]:
        return heard(data, line, line, wiring.speed_ratio, wiring.parity)

    return {press.id: (_outcome(press, hears),) for press in presses}


def _outcome(press: Press, hears: Hears) -> Outcome:
    came = [one for data in _sent_at_once(press) for one in hears(data)]
    codes = bytes(code for code, _ in came)
    errors = [error for _, error in came if error]
    return outcome_of(press, codes, next(iter(errors), ""))


def _sent_at_once(press: Press) -> Sequence[bytes]:
    """Return the bytes that follow one another without a pause; keys held together pause."""
    if not press.held:
        return [press.code]
    return [bytes([code]) for code in press.code]
