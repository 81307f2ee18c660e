"""What a script asks for that no board could do, and parts of it that hold nothing."""

from collections.abc import Iterable, Iterator, Mapping, Sequence

from termprobe.findings import Findings, nearest
from termprobe.profile.model import Profile
from termprobe.script.model import Script, ScriptStep


def check_possible(script: Script, profiles: Iterable[Profile], name: str) -> Findings:
    """Return the findings on `script`, which they call `name`.

    An option or a position that none of `profiles` has is one, and so is a script without stages or
    a stage without steps.
    """
    findings = Findings(name)
    positions = _positions(profiles)
    if not script.stages:
        findings.add(script.place, "stages must hold at least one stage, not none")
    for stage in script.stages:
        if not stage.steps:
            findings.add(stage.place, f"steps of {stage.id} must hold at least one step, not none")
        for step in stage.steps:
            for wrong in _impossible(step, positions):
                findings.add(step.place, wrong)
    return findings


def _positions(profiles: Iterable[Profile]) -> dict[str, list[str]]:
    """Return option -> all positions that one of the profiles has for it."""
    found: dict[str, list[str]] = {}
    for profile in profiles:
        for option in profile.options:
            found.setdefault(str(option.name), []).extend(map(str, option.positions))
    return found


def _impossible(step: ScriptStep, known: Mapping[str, Sequence[str]]) -> Iterator[str]:
    """Yield what is wrong with each option and position that `step` asks for."""
    wanted = list(step.settings.items())
    if step.option is not None:
        wanted.append((step.option, step.position or ""))
    for option, position in wanted:
        if option not in known:
            yield _must_be(f"an option of {step.id}", option, known)
        elif position not in known[option]:
            yield _must_be(f"the position of {option} in {step.id}", position, known[option])


def _must_be(what: str, given: str, known: Iterable[str]) -> str:
    allowed = tuple(dict.fromkeys(known))
    words = f"{what} must be one that a profile has, {', '.join(allowed) or 'and none has any'}"
    return f'{words}, not "{given}"{nearest(given, allowed)}'
