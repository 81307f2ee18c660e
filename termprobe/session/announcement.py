"""Tells on the board's own screen that its keys answer now."""

from termprobe.plan.model import Group, Look
from termprobe.profile.encode import encode
from termprobe.profile.model import Profile
from termprobe.runner.run import Run

ANNOUNCED_TEXT = "ANSWER ON THIS KEYBOARD: Y AS EXPECTED, N DIFFERS. PRESS Y."
ANNOUNCED = Look("answer-keys", "", "the board's own answer keys")


def announce(run: Run, profile: Profile) -> None:
    """Clear the board's screen and write the announcement, as much of it as a row holds."""
    for group in announcement(profile):
        run.send_group(ANNOUNCED, group)


def announcement(profile: Profile) -> list[Group]:
    """Return what the announcement sends."""
    text = ANNOUNCED_TEXT[: profile.display.columns]
    fresh = [_command(profile, name) for name in profile.fresh]
    return [*fresh, Group(text.encode("ascii"), f'text "{text}"')]


def _command(profile: Profile, name: str) -> Group:
    command = profile.command(name)
    settle_s = 0.0 if command is None else command.settle_ms / 1000
    return Group(encode(profile, name), name, settle_s)
