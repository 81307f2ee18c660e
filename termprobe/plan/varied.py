"""Steps that follow the options of a display: one in each variant, with all rows lit or half. Pure.

A step of a script says what it wants of the display; which option of the board does that, and in
which position, is the profile's to say.
"""

from collections.abc import Callable
from dataclasses import replace

from termprobe.profile.model import Option, Profile
from termprobe.profile.variants import variants
from termprobe.script.model import ScriptStep
from termprobe.yamlvalues import Text


def varied(profile: Profile, step: ScriptStep) -> tuple[ScriptStep, ...]:
    """Return the steps that `step` becomes, with the settings that the options must have.

    It is `step` alone, as it is, where the profile has no such option; lack() then tells why.
    """
    if step.rows:
        step = _with_rows(profile, step)
    option = _choosing(profile)
    if not step.variants or option is None:
        return (step,)
    wanted = option.positions
    if step.variants == "other":
        wanted = tuple(position for position in wanted if position != option.normal)
    return tuple(_in_position(step, option, position) for position in wanted)


def lack(profile: Profile, step: ScriptStep) -> str:
    """Return what `profile` lacks for `step`; empty where it lacks nothing."""
    if step.variants and _choosing(profile) is None:
        return f"profile {profile.id} has no option that chooses a national variant"
    if step.rows and _lighting(profile) is None:
        return f"profile {profile.id} has no option that lights half of its rows"
    if step.has is not None and not HAS[step.has](profile):
        return f"profile {profile.id} describes no keyboard with {IN_WORDS[step.has]}"
    return ""


def _has_role(role: str) -> Callable[[Profile], bool]:
    def has(profile: Profile) -> bool:
        keyboard = profile.keyboard
        return keyboard is not None and any(key.role == role for key in keyboard.keys)

    return has


def _repeats(profile: Profile) -> bool:
    return profile.keyboard is not None and profile.keyboard.repeat != "none"


HAS: dict[str, Callable[[Profile], bool]] = {
    "break-key": _has_role("break"),
    "repeat": _repeats,
    "local-key": _has_role("local"),
}
"""What a step may ask a keyboard to have."""
IN_WORDS = {
    "break-key": "a BREAK key",
    "repeat": "keys that repeat",
    "local-key": "a LOCAL key",
}


def _choosing(profile: Profile) -> Option | None:
    """Return the option that chooses a variant."""
    return next((option for option in profile.options if option.variants), None)


def _lighting(profile: Profile) -> Option | None:
    """Return the option that lights all rows or half of them."""
    return next((option for option in profile.options if option.rows), None)


def _with_rows(profile: Profile, step: ScriptStep) -> ScriptStep:
    option = _lighting(profile)
    if option is None:
        return step
    wants_half = step.rows == "half"
    for position in option.positions:
        lit = option.rows.get(Text(position), profile.display.rows)
        if (lit < profile.display.rows) == wants_half:
            return _set(step, option, position)
    return step


def _in_position(step: ScriptStep, option: Option, position: str) -> ScriptStep:
    """Return `step` as it is in one position, with an id and a title of its own."""
    shown = option.variants.get(Text(position))
    called = position
    if shown is not None:
        called = variants()[shown].title
    own = replace(step, id=Text(f"{step.id}-{position}"), title=f"{step.title}: {called}")
    return _set(own, option, position, step)


def _set(
    step: ScriptStep, option: Option, position: str, first: ScriptStep | None = None
) -> ScriptStep:
    """Return `step` with a setting more; it stands where `first`, or `step` itself, does."""
    settings = {**step.settings, str(option.name): position}
    found = replace(step, settings=settings)
    object.__setattr__(found, "place", (first or step).place)
    return found
