"""What is to be carried out: profile, script and plan, from the user's files or an earlier run."""

from dataclasses import dataclass, replace

from termprobe import yamlfile
from termprobe.cli.covering import covered
from termprobe.cli.recorded import Recorded
from termprobe.cli.request import BenchRequest
from termprobe.cli.run_texts import with_earlier
from termprobe.errors import UsageError
from termprobe.plan.choose import choose, left_out
from termprobe.plan.covered import covering_in, with_covering
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
    whole: Plan
    """What the whole script makes."""
    plan: Plan
    """The part of the script that is wanted."""
    chosen: tuple[str, ...] | None
    """Ids of the steps chosen, None where the whole script is wanted."""
    left_out: int
    """How many steps were not chosen that are fitted."""


def task_of(
    request: BenchRequest, earlier: Recorded | None, before: Recorded | None = None
) -> Task:
    """Return the Task asked for; what the request does not name is that of the `earlier` run.

    That is the one that is gone on with; a new run takes it of the one `before`. Raises FileError
    for files that cannot be used, UsageError where something is not named.
    """
    from termprobe.plan.compile import compile_plan  # it loads pyte

    profile_text, profile_name = _text_of("profile", request.profile, earlier or before)
    profile = profiles.parse(profile_text, profile_name)
    script_text, script_name = _text_of("script", request.script, earlier or before)
    script = _script_of(script_text, script_name, request)
    for option, begun in (("--resume", earlier), ("--after", before)):
        if begun:
            _refuse_another("profile", str(profile.id), begun.plan.profile_id, option)
            _refuse_another("script", str(script.id), begun.plan.script_id, option)
    whole = compile_plan(profile, script, request.script, _speed_baud(request, earlier))
    plan, chosen = _part(whole, profile, request, earlier, before)
    missed = left_out(whole, plan)
    if earlier:
        plan = with_earlier(plan, profile, earlier.texts)
    return Task(profile, profile_text, script, script_text, whole, plan, chosen, missed)


def _text_of(kind: str, name: str | None, earlier: Recorded | None) -> tuple[str, str]:
    """Return (text, its name in findings) of the profile or script that is named, or was used."""
    if name:
        path = yamlfile.find(name, f"{kind}s")
        return yamlfile.read_text(path), str(path)
    if earlier is None:
        raise UsageError(unnamed(kind))
    return earlier.text_of(kind)


def _script_of(text: str, name: str, request: BenchRequest) -> Script:
    if request.script:
        return scripts.parse(text, name)
    return scripts.parse_recorded(text, name)


def with_looks_spared(task: Task, earlier: Recorded | None) -> Task:
    """Return `task` with the looks covered that others spare.

    In a run that is resumed they are those of its texts as they were last. Where its plan has
    changed since, nothing is proven of them, and all looks are asked.
    """
    if earlier is None:
        plan = covered(task.plan, task.profile, task.profile_text)
    elif earlier.plan.hash == task.plan.hash:
        plan = with_covering(task.plan, covering_in(earlier.plan))
    else:
        plan = with_covering(task.plan, {})
    return replace(task, plan=plan)


def _refuse_another(kind: str, given: str, begun: str, option: str) -> None:
    """Refuse another profile or script than the run of `option` was begun with."""
    if given != begun:
        raise UsageError(
            f"--{kind} must be {begun} on {option}, as the run was begun, or an edited text of it, "
            f"not {given}; begin a new run for another {kind}"
        )


def _speed_baud(request: BenchRequest, earlier: Recorded | None) -> int | None:
    """Return the speed of the line that is asked for, or was used; None for the profile's."""
    if request.speed_baud is None and earlier is not None:
        return earlier.speed_baud
    return request.speed_baud


def unnamed(kind: str) -> str:
    """Return the complaint where no profile, or no script, is named."""
    return (
        f"--{kind} must name a {kind}; `termprobe {kind} list` shows those that come with termprobe"
    )


def _part(
    whole: Plan,
    profile: Profile,
    request: BenchRequest,
    earlier: Recorded | None,
    before: Recorded | None,
) -> tuple[Plan, tuple[str, ...] | None]:
    """Return the part of the plan that is wanted, and the ids of its steps where it was chosen.

    A run that was begun with a part goes on with it; one that comes after it takes the same part
    where no other is chosen.
    """
    if earlier and earlier.header.chosen is not None:
        return choose(whole, earlier.header.chosen), earlier.header.chosen
    if request.choice:
        part = request.choice(profile, whole)
        return part, tuple(step.id for step in part.steps)
    if before and before.header.chosen is not None:
        return choose(whole, before.header.chosen), before.header.chosen
    return whole, None
