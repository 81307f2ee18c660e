"""A step played a code at a time: where it stands, and the screen that each group gives.

Pure.
"""

from dataclasses import dataclass, replace

from termprobe.plan.model import Group, Plan, Step
from termprobe.profile.model import Profile
from termprobe.runner.course import chain
from termprobe.session.react.code_groups import code_groups
from termprobe.terminal.reference import Reference
from termprobe.terminal.screen import Screen


@dataclass(frozen=True)
class Play:
    """One step, partly sent."""

    groups: tuple[Group, ...]
    """One for each command, control code and text: those of the steps that the step goes on from,
    then its own.
    """
    screens: tuple[Screen, ...]
    """The screen before the first group and after each one; one more than groups."""
    sent: int = 0
    """How many groups the board has been sent."""
    mark: int | None = None
    """Where to run to: this many groups sent."""

    @property
    def screen(self) -> Screen:
        """The screen that the groups sent so far must give."""
        return self.screens[self.sent]


Played = tuple[Play, tuple[Group, ...]]
"""The play, and the groups that the board must now be sent."""


def play_of(plan: Plan, step: Step, profile: Profile) -> Play:
    """Return the Play of `step`, code by code, nothing sent yet.

    The groups of the steps that it goes on from come first. Options are where each step wants them.
    """
    reference = Reference(profile)
    reference.set_options(dict(step.settings))
    groups: list[Group] = []
    screens = [reference.screen()]
    for part in chain(plan, step, None):
        reference.set_options(dict(part.settings))
        for group in code_groups(profile, part.groups):
            reference.feed(group.data)
            groups.append(group)
            screens.append(reference.screen())
    return Play(tuple(groups), tuple(screens))


def forward(play: Play) -> Played:
    """Return (play, groups to send) for one more group."""
    return _to(play, play.sent + 1)


def back(play: Play) -> Played:
    """Return (play, groups to send) for one group less.

    A screen cannot be undone, so all groups but the last are sent again.
    """
    return _to(play, play.sent - 1)


def to_mark(play: Play) -> Played:
    """Return (play, groups to send) up to the mark.

    They go to the end where there is no mark, or it is reached.
    """
    if play.mark is None or play.mark == play.sent:
        return _to(play, len(play.groups))
    return _to(play, play.mark)


def restart(play: Play) -> Played:
    """Return (play, no groups) with nothing sent."""
    return replace(play, sent=0), ()


def set_mark(play: Play, count: int) -> Play:
    """Return the play with its mark after `count` groups, taken off where it stood there."""
    count = _within(play, count)
    if play.mark == count:
        return replace(play, mark=None)
    return replace(play, mark=count)


def move_mark(play: Play, by: int) -> Play:
    """Return the play with its mark `by` groups further on; without one it is set from here."""
    start = play.sent if play.mark is None else play.mark
    return replace(play, mark=_within(play, start + by))


def _to(play: Play, target: int) -> Played:
    target = _within(play, target)
    first = play.sent if target >= play.sent else 0
    return replace(play, sent=target), play.groups[first:target]


def _within(play: Play, count: int) -> int:
    return min(max(count, 0), len(play.groups))
