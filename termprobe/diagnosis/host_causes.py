"""What comes of a healthy keyboard where the host reads the line wrongly, or not at all."""

from collections.abc import Iterator, Sequence

from termprobe.diagnosis.key_hypothesis import Hypothesis, Sends, outcome_of, supposed
from termprobe.diagnosis.key_outcomes import Outcome
from termprobe.link.frame import PARITY_OF_ONES
from termprobe.plan.model import Press
from termprobe.profile.model import Profile

SILENT = (
    "nothing arrives: the cable, the adapter, the line driver, local mode, "
    "or a keyboard that is not connected"
)
SPEEDS_DIFFER = (
    "the speeds of host and board differ, or come near enough to it that bits are lost now and then"
)
READ_AS_EIGHTH_BIT = ("even", "odd", "mark")
"""Parities that show as an eighth bit to a host that reads 8 data bits."""
FIXED = {"mark": (1, "1, or none"), "space": (0, "0")}
"""What a host expects that hears a parity bit fixed at a level: that level, and it in words."""


def wrong_hosts(profile: Profile, presses: Sequence[Press]) -> Iterator[Hypothesis]:
    """Yield each way in which a host can be set up wrongly, or hear nothing."""
    silence = {press.id: (outcome_of(press, b""),) for press in presses}
    yield supposed("host/silent", SILENT, "link", silence)
    yield from _eighth_bits(presses)
    yield from _other_parities(profile, presses)
    yield _other_speed(profile, presses)


def _eighth_bits(presses: Sequence[Press]) -> Iterator[Hypothesis]:
    for parity in READ_AS_EIGHTH_BIT:
        title = f"the host reads 8 data bits, and the board sends 7 and {parity} parity"
        sends = {press.id: (_with_eighth_bit(press, parity),) for press in presses}
        yield supposed(f"host/format/{parity}", title, "link", sends)


def _with_eighth_bit(press: Press, parity: str) -> Outcome:
    return outcome_of(press, bytes(_with_parity_bit(code, parity) for code in press.code))


def _with_parity_bit(code: int, parity: str) -> int:
    bit: int = PARITY_OF_ONES[parity](code.bit_count())
    return code | bit << 7


def _other_parities(profile: Profile, presses: Sequence[Press]) -> Iterator[Hypothesis]:
    all_wrong = {press.id: (outcome_of(press, press.code, "parity"),) for press in presses}
    title = "the host expects another parity than the board sends"
    yield supposed("host/parity", title, "link", all_wrong)
    expected = profile.link.parity
    if expected not in ("even", "odd"):
        return
    for fixed, (level, word) in FIXED.items():
        title = (
            f"the host expects {expected} parity, and the board sends a parity bit fixed at {word}"
        )
        sends = _with_fixed_bit(presses, expected, level)
        yield supposed(f"host/parity/{fixed}", title, "link", sends)


def _with_fixed_bit(presses: Sequence[Press], expected: str, level: int) -> Sends:
    """Return what comes where the parity bit is always `level`: errors where it should not be."""
    sends = {}
    for press in presses:
        bits = {_with_parity_bit(code, expected) >> 7 for code in press.code}
        error = "parity" if bits - {level} else ""
        sends[press.id] = (outcome_of(press, press.code, error),)
    return sends


def _other_speed(profile: Profile, presses: Sequence[Press]) -> Hypothesis:
    """Return the Hypothesis of speeds that differ by nobody knows how much."""
    errors = [Outcome.error_alone("framing")]
    if profile.link.parity != "none":
        errors.append(Outcome.error_alone("parity"))
    sends = {press.id: (outcome_of(press, press.code), *errors) for press in presses}
    return supposed("host/speed", SPEEDS_DIFFER, "link", sends)
