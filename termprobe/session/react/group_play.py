"""A step played a byte group at a time: where it stands, the mark to run to, and the screen that each group must give. Pure."""

from dataclasses import dataclass, replace

from termprobe.plan.model import Group
from termprobe.terminal.screen import Screen


@dataclass(frozen=True)
class Play:
    """One step, partly sent."""

    step_id: str
    groups: tuple[Group, ...]
    """All that leads to the step's screen: the groups of the steps it goes on from, then its own."""
    screens: tuple[Screen, ...]
    """The screen before the first group and after each one; one more than groups."""
    sent: int = 0
    """How many groups the board has been sent."""
    mark: int | None = None
    """Where to run to: this many groups sent."""

    @property
    def screen(self):
        """The screen that the groups sent so far must give."""
        return self.screens[self.sent]


def groups_of(plan, step):
    """Return all groups that lead to the screen of `step`, those of the steps that it goes on from first."""
    place = plan.steps.index(step)
    groups = step.groups
    while plan.steps[place].continues and place > 0:
        place -= 1
        groups = plan.steps[place].groups + groups
    return groups


def play_of(plan, step, new_reference):
    """Return the Play of `step`, nothing sent yet; `new_reference()` gives an empty screen (terminal.reference.Reference)."""
    groups = groups_of(plan, step)
    reference = new_reference()
    screens = [reference.screen()]
    for group in groups:
        reference.feed(group.data)
        screens.append(reference.screen())
    return Play(step.id, groups, tuple(screens))


def forward(play):
    """Return (play, groups to send) for one more group."""
    return _to(play, play.sent + 1)


def back(play):
    """Return (play, groups to send) for one group less: a screen cannot be undone, so all but the last are sent again."""
    return _to(play, play.sent - 1)


def to_mark(play):
    """Return (play, groups to send) up to the mark, or to the end where there is none or it is reached."""
    target = len(play.groups) if play.mark is None or play.mark == play.sent else play.mark
    return _to(play, target)


def restart(play):
    """Return (play, no groups) with nothing sent."""
    return replace(play, sent=0), ()


def set_mark(play, place):
    """Return the play with its mark at `place` groups, taken off where it stood there."""
    place = min(max(place, 0), len(play.groups))
    return replace(play, mark=None if play.mark == place else place)


def _to(play, target):
    target = min(max(target, 0), len(play.groups))
    first = play.sent if target >= play.sent else 0
    return replace(play, sent=target), play.groups[first:target]
