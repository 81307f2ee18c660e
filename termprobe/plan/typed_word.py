"""A word that is typed back, in the characters that the screen shows for its codes. Pure."""

from termprobe.plan.model import Step, TypedBack, expected_of
from termprobe.profile.variants import NO_VARIANT, in_ascii, shown_as


def variant_of(step: Step) -> str:
    """Return the id of the national variant in which the screen of `step` is shown."""
    expected = expected_of(step)
    if expected is None:
        return NO_VARIANT
    return expected.variant


def word_shown(step: TypedBack) -> str:
    """Return the word of `step` as the screen shows it, without RETURN."""
    return shown_as(step.word.rstrip("\r"), variant_of(step))


def in_codes(step: TypedBack, text: str) -> str:
    """Return the ASCII characters of the codes that the screen of `step` shows as `text`."""
    return in_ascii(text, variant_of(step))
