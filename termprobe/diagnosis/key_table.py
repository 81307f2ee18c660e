"""The hypotheses of one profile as a table, kept: where each is not like the healthy keyboard."""

from collections.abc import Collection, Sequence
from typing import NamedTuple

from termprobe.diagnosis.kept import once_a_profile
from termprobe.diagnosis.key_hypotheses import hypotheses
from termprobe.diagnosis.key_hypothesis import Hypothesis
from termprobe.diagnosis.key_outcomes import Predicted
from termprobe.plan.model import Press
from termprobe.plan.presses import chord_presses, coded_presses
from termprobe.profile.model import Profile


class Departure(NamedTuple):
    """One press of which something else comes than of a healthy keyboard."""

    press: str
    predicted: Predicted


class KeyClass(NamedTuple):
    """Hypotheses that predict the same of all that was pressed."""

    changes: tuple[int, ...]
    """Numbers of their changes among what was pressed."""
    members: tuple[Hypothesis, ...]
    """The most common first, so that the healthy keyboard leads its class."""

    @property
    def weight(self) -> float:
        """How common its members are, taken together."""
        return sum(one.weight for one in self.members)


class KeyTable:
    """What could be wrong with the keyboard of a profile; `table_of` and `table_for` keep them."""

    def __init__(self, profile: Profile, presses: Sequence[Press]) -> None:
        self.presses = {press.id: press for press in presses}
        self.hypotheses = hypotheses(profile, presses)
        self.healthy = self.hypotheses[0]
        numbers: dict[Departure, int] = {}
        self._changes_of = [(one, self._numbered(one, numbers)) for one in self.hypotheses]
        self.changes = tuple(numbers)
        """By number."""

    def _numbered(self, one: Hypothesis, numbers: dict[Departure, int]) -> tuple[int, ...]:
        """Return the numbers of a hypothesis' changes; one that has none yet gets the next."""
        changes = one.changes(self.healthy).items()
        return tuple(numbers.setdefault(Departure(*change), len(numbers)) for change in changes)

    def classes(self, pressed: Collection[str]) -> list[KeyClass]:
        """Return all hypotheses by what they predict of the presses with the ids `pressed`."""
        matters = {number for number, change in enumerate(self.changes) if change.press in pressed}
        groups: dict[tuple[int, ...], list[Hypothesis]] = {}
        for one, changes in self._changes_of:
            groups.setdefault(tuple(filter(matters.__contains__, changes)), []).append(one)
        return [KeyClass(changes, _by_weight(members)) for changes, members in groups.items()]


def _by_weight(members: list[Hypothesis]) -> tuple[Hypothesis, ...]:
    return tuple(sorted(members, key=lambda one: -one.weight))


@once_a_profile
def table_of(profile: Profile) -> KeyTable:
    """Return the table of all presses of single keys that send a code."""
    return KeyTable(profile, coded_presses(profile))


@once_a_profile
def _table_with_chords(profile: Profile) -> KeyTable:
    return KeyTable(profile, _with_chords(profile))


def _with_chords(profile: Profile) -> tuple[Press, ...]:
    return (*coded_presses(profile), *_chords(profile))


@once_a_profile
def _chords(profile: Profile) -> tuple[Press, ...]:
    return chord_presses(profile)


def presses_of(profile: Profile, pressed: Collection[str]) -> dict[str, Press]:
    """Return id -> each of the presses `pressed` that send a code, chords included."""
    return {press.id: press for press in _with_chords(profile) if press.id in pressed}


def table_for(profile: Profile, pressed: Collection[str]) -> KeyTable:
    """Return the table for the presses `pressed`, by id: with chords where one is among them."""
    if any(chord.id in pressed for chord in _chords(profile)):
        return _table_with_chords(profile)
    return table_of(profile)
