"""Looks that show whether a board was busy after a command: text follows it after a pause."""

from termprobe.plan.model import Group, Look
from termprobe.plan.sending import command_group, fill_groups, text_group
from termprobe.profile.model import Profile
from termprobe.terminal.reference import Reference

TEXT = "ALL OF THIS IS HERE"
"""What follows; of a screen that is narrower as much as fits."""
SLOW_ACTIONS = (
    "clear",
    "erase-display",
    "erase-to-end-of-display",
    "erase-to-start-of-display",
    "erase-line",
    "erase-to-end-of-line",
    "home",
    "down",
    "next-line",
    "address",
)
"""Actions that a board may take longer for than for a character. `down` and `next-line` are tried
where they scroll."""
SCROLLING = ("down", "next-line")
FROM_HOME = ("erase-to-end-of-display", "erase-to-end-of-line", "erase-line")
"""What erases from the cursor on has most to do from the first cell."""
QUESTION = f"Does {TEXT} stand where it is drawn, whole, with nothing lost at its beginning?"


def slow_commands(profile: Profile) -> list[str]:
    """Return the names of the commands that may need a pause, in the profile's order."""
    return [str(one.name) for one in profile.commands if one.action in SLOW_ACTIONS]


def settle_try(profile: Profile, name: str, pause_s: float, ample_s: float) -> Look:
    """Return the look that tries `pause_s` after the command `name`, and `ample_s` everywhere else.

    Raises NotFittedError where the profile cannot say the command.
    """
    command = profile.command(name)
    is_address = command is not None and command.action == "address"
    row, column = (1, 2) if is_address else (None, None)
    tried = command_group(profile, name, row=row, column=column)
    groups = [_with_pause(group, ample_s) for group in _before(profile, name)]
    groups.append(_with_pause(tried, pause_s))
    room = profile.display.columns - 3
    groups.append(_with_pause(text_group(TEXT[:room]), ample_s))
    reference = Reference(profile)
    for group in groups:
        reference.feed(group.data)
    title = f"{name}, then text after {1000 * pause_s:.1f} ms"
    return Look(name, "settle", title, QUESTION, tuple(groups), expected=reference.screen())


def _before(profile: Profile, name: str) -> list[Group]:
    """Return what makes a full screen; for what scrolls the cursor stands in its last row."""
    action = next(one.action for one in profile.commands if one.name == name)
    rows, columns = profile.display.rows, profile.display.columns
    lines = ["*" * (columns - 1)] * (rows - 1) + [""]
    groups = [command_group(profile, str(fresh)) for fresh in profile.fresh]
    groups += fill_groups(profile, lines, "a full screen")
    if action in SCROLLING:
        groups += _first_with(profile, "return") + _first_with(profile, "down")
    if action in FROM_HOME:
        groups += _first_with(profile, "home")
    return groups


def _first_with(profile: Profile, action: str) -> list[Group]:
    """Return the first command of `profile` with that action, none where it has none."""
    named = [str(one.name) for one in profile.commands if one.action == action]
    return [command_group(profile, name) for name in named[:1]]


def _with_pause(group: Group, pause_s: float) -> Group:
    return Group(group.data, group.label, pause_s)
