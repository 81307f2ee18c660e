"""Why no keys are asked for together where chords were wanted, in words."""

from termprobe.plan.model import NoChords, Plan
from termprobe.profile.model import Keyboard


def no_chords_in_words(keyboard: Keyboard, plan: Plan) -> str:
    """Return why the chords that `plan` has a place for are not asked, nothing where they are."""
    lacking = [step.not_fitted for step in plan.steps if isinstance(step, NoChords)]
    why = next(filter(None, lacking), "")
    if why and not keyboard.diodes:
        why = (
            "this keyboard has no diodes that they could check; without these, three keys held "
            "at three corners of the matrix always make the fourth come too"
        )
    return f"none are asked for: {why}" if why else ""
