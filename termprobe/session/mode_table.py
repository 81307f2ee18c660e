"""The table of modes: one for each module of termprobe/session/modes/."""

from types import ModuleType

from termprobe.listing import lacking, modules_in
from termprobe.plan.model import Step
from termprobe.session import modes
from termprobe.session.mode import Mode


def modes_in(folder: ModuleType) -> dict[str, Mode]:
    """Return name -> Mode for each module of `folder`, in the order of the modules' names.

    Raises TypeError for a module whose MODE is none, ValueError for a name that two modes have.
    """
    found: dict[str, Mode] = {}
    for module in modules_in(folder):
        mode = getattr(module, "MODE", None)
        if not isinstance(mode, Mode):
            raise lacking(module, "MODE", "a Mode")
        if mode.name in found:
            raise ValueError(f"{module.__name__}: no other mode may be called {mode.name!r}")
        found[mode.name] = mode
    return found


MODES = modes_in(modes)
"""All modes by their names."""


def mode_of_kind(kind: str) -> Mode:
    """Return the mode in which a step of that kind is answered; raise KeyError."""
    for mode in MODES.values():
        if mode.kind == kind:
            return mode
    raise KeyError(kind)


def mode_of(step: Step) -> Mode:
    """Return the mode in which `step` is answered, or shown where it can never be."""
    if step.not_fitted:
        return MODES["not-fitted"]
    return mode_of_kind(step.kind)
