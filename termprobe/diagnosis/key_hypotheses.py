"""All that could be wrong with a keyboard, and what each press would then send.

Besides the faults of the simulated keyboard there are those of the board's transmitter and line,
and causes outside the board: a host that reads another format, and a profile that is wrong where
the keyboard is right.
"""

from collections.abc import Sequence

from termprobe.diagnosis.host_causes import wrong_hosts
from termprobe.diagnosis.key_hypothesis import Hypothesis, nothing_wrong, outcome_of
from termprobe.diagnosis.keyboard_causes import faults_of_keyboard
from termprobe.diagnosis.line_causes import (
    faults_of_parity_bit,
    faults_of_transmitter,
    wrong_speeds,
)
from termprobe.diagnosis.profile_causes import wrong_rules
from termprobe.plan.model import Press
from termprobe.profile.model import Profile


def hypotheses(profile: Profile, presses: Sequence[Press]) -> tuple[Hypothesis, ...]:
    """Return every Hypothesis of what `presses` of the profile's keyboard send, healthy first."""
    return (
        *on_the_board(profile, presses),
        *wrong_hosts(profile, presses),
        *wrong_rules(profile, presses),
    )


def on_the_board(profile: Profile, presses: Sequence[Press]) -> tuple[Hypothesis, ...]:
    """Return those of keyboard, transmitter and line alone, healthy first.

    Speeds that differ stand among them twice, as the host's mistake and as the board's.
    """
    healthy = nothing_wrong({press.id: (outcome_of(press, press.code),) for press in presses})
    of_keyboard = tuple(faults_of_keyboard(profile, presses, healthy))
    return (
        healthy,
        *of_keyboard,
        *faults_of_transmitter(profile, of_keyboard),
        *faults_of_parity_bit(profile, presses),
        *wrong_speeds(profile, presses),
    )
