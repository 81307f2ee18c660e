"""What is to be carried out: profile, script and plan, from the user's files or an earlier run."""

from dataclasses import dataclass

from termprobe import yamlfile
from termprobe.cli.recorded import Recorded, speed_of
from termprobe.cli.request import BenchRequest
from termprobe.errors import UsageError
from termprobe.plan.choose import choose
from termprobe.plan.model import Plan
from termprobe.profile import load as profiles
from termprobe.profile.model import Profile
from termprobe.script import load as scripts
from termprobe.script.model import Script


@dataclass(frozen=True)
class Task:
    """A plan, and all that it was made of."""

    profile: Profile
    profile_text: str
    script: Script
    script_text: str
    plan: Plan
    """The part of the script that is wanted."""
    chosen: tuple[str, ...] | None
    """Ids of the steps chosen, None where the whole script is wanted."""
    left_out: int
    """How many steps were not chosen that are fitted."""


def task_of(request: BenchRequest, earlier: Recorded | None) -> Task:
    """Return the Task asked for; what the request does not name is that of the `earlier` run.

    Raises FileError for files that cannot be used, UsageError where something is not named.
    """
    from termprobe.plan.compile import compile_plan  # it loads pyte

    profile_text, profile_name = _text_of("profile", request.profile, earlier)
    profile = profiles.parse(profile_text, profile_name)
    script_text, script_name = _text_of("script", request.script, earlier)
    script = scripts.parse(script_text, script_name)
    whole = compile_plan(profile, script, request.script, _speed_baud(request, earlier))
    plan, chosen = _part(whole, profile, request, earlier)
    return Task(profile, profile_text, script, script_text, plan, chosen, _left_out(whole, chosen))


def _text_of(kind: str, name: str | None, earlier: Recorded | None) -> tuple[str, str]:
    """Return (text, its name in findings) of the profile or script that is named, or was used."""
    if name:
        path = yamlfile.find(name, f"{kind}s")
        return yamlfile.read_text(path), str(path)
    if earlier is None:
        raise UsageError(unnamed(kind))
    return earlier.text_of(kind)


def _speed_baud(request: BenchRequest, earlier: Recorded | None) -> int | None:
    """Return the speed of the line that is asked for, or was used; None for the profile's."""
    if request.speed_baud is None and earlier is not None:
        return speed_of(earlier.header)
    return request.speed_baud


def unnamed(kind: str) -> str:
    """Return the complaint where no profile, or no script, is named."""
    return (
        f"--{kind} must name a {kind}; `termprobe {kind} list` shows those that come with termprobe"
    )


def _part(
    whole: Plan, profile: Profile, request: BenchRequest, earlier: Recorded | None
) -> tuple[Plan, tuple[str, ...] | None]:
    """Return the part of the plan that is wanted, and the ids of its steps where it was chosen.

    A run that was begun with a part goes on with it.
    """
    if earlier and earlier.header.chosen is not None:
        return choose(whole, earlier.header.chosen), earlier.header.chosen
    if request.choice:
        part = request.choice(profile, whole)
        return part, tuple(step.id for step in part.steps)
    return whole, None


def _left_out(whole: Plan, chosen: tuple[str, ...] | None) -> int:
    if chosen is None:
        return 0
    return sum(not step.not_fitted and step.id not in chosen for step in whole.steps)
