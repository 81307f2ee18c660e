"""With how many examples a property is tried; the profiles stand in tests/conftest.py."""

from hypothesis import settings

USUAL = 50
"""What is tried where nothing is said."""


def examples(count):
    """Return the decorator of a property to be tried with `count` examples in the usual profile.

    A profile with twenty times the usual number makes it twenty times as many.
    """
    return settings(max_examples=count * settings.default.max_examples // USUAL)


def one_in(count, items):
    """Return one in `count` of `items`, spread evenly; with a larger profile all of them."""
    return list(items)[:: count if settings.default.max_examples <= USUAL else 1]
