"""Which commands went over an edge of the screen in given steps of a plan. Pure."""

from collections.abc import Collection

from termprobe.plan.model import Plan
from termprobe.profile.model import Profile
from termprobe.terminal.edges import EdgeWatch


def edges_tried(profile: Profile, plan: Plan, proven: Collection[str]) -> frozenset[str]:
    """Return the names of the commands that went over an edge in a step whose id is `proven`."""
    found: set[str] = set()
    watch = EdgeWatch(profile)
    for step in plan.steps:
        if not step.continues:
            watch = EdgeWatch(profile)
        own = watch.feed(step.data)
        if step.id in proven:
            found |= own
    return frozenset(found)
