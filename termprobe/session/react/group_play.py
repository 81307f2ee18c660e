"""A step played a code at a time: where it stands, and the screen that each group gives.

Pure.
"""

import itertools
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from termprobe.plan.model import Group, Plan, Step
from termprobe.profile.model import Profile
from termprobe.runner.course import chain
from termprobe.session.react.code_groups import code_groups
from termprobe.terminal.reference import Reference
from termprobe.terminal.screen import Screen


@dataclass(frozen=True)
class OptionMove(Group):
    """Stands among groups where an option of the board must be moved; nothing is sent for it."""

    option: str = ""
    position: str = ""


@dataclass(frozen=True)
class Play:
    """One step, partly sent."""

    groups: tuple[Group, ...]
    """One for each command, control code and text: those of the steps that the step goes on from,
    then its own. An OptionMove stands where one of these steps wants an option elsewhere.
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

    The groups of the steps that it goes on from come first. Options are where each step wants them:
    where that changes on the way, each is moved, from the first step on.
    """
    reference = Reference(profile)
    reference.set_options(dict(step.settings))
    groups: list[Group] = []
    screens = [reference.screen()]
    parts = chain(plan, step, None)
    moving = _moving(parts)
    standing: dict[str, str] = {}
    for part in parts:
        moves = _moves(part, moving, standing)
        reference.set_options(dict(part.settings))
        for group in (*moves, *code_groups(profile, part.groups)):
            reference.feed(group.data)
            groups.append(group)
            screens.append(reference.screen())
    return Play(tuple(groups), tuple(screens))


def _moving(parts: Sequence[Step]) -> set[str]:
    """Return the options that these steps want in more than one position."""
    wanted = {setting for part in parts for setting in part.settings}
    options = [option for option, _ in wanted]
    return {option for option in options if options.count(option) > 1}


def _moves(part: Step, moving: set[str], standing: dict[str, str]) -> Iterator[OptionMove]:
    """Yield the moves that `part` asks for, and note them in `standing`."""
    for option, position in part.settings:
        if option in moving and standing.get(option) != position:
            standing[option] = position
            yield OptionMove(b"", f"set {option} to {position}", 0.0, option, position)


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
    """Return (play, groups to send) as far towards `target` as no option must be moved.

    Where one must be, `target` is marked. A move is done alone, once it is what comes next.
    """
    target = _within(play, target)
    first = play.sent if target >= play.sent else 0
    wanted = play.groups[first:target]
    groups = tuple(itertools.takewhile(_is_sent, wanted))
    if first == play.sent and not groups:
        groups = wanted[:1]
    reached = first + len(groups)
    if reached < target:
        play = replace(play, mark=target)
    return replace(play, sent=reached), groups


def _is_sent(group: Group) -> bool:
    return not isinstance(group, OptionMove)


def _within(play: Play, count: int) -> int:
    return min(max(count, 0), len(play.groups))
