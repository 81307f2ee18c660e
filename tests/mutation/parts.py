"""The parts of the program that are mutated, and the tests that matter for each.

mutmut runs of these tests the ones that call the mutated function. Left out are what only draws,
and the tests marked `slow`.
"""

from typing import NamedTuple


class Part(NamedTuple):
    """The files that are mutated, by glob, and the tests that are run."""

    files: tuple[str, ...]
    tests: tuple[str, ...]


PARTS = {
    "verdict": Part(("termprobe/verdict/*.py",), ("tests/verdict", "tests/report")),
    "plan": Part(("termprobe/plan/*.py",), ("tests/plan", "tests/script")),
    "journal": Part(("termprobe/journal/*.py",), ("tests/journal",)),
    "runner": Part(("termprobe/runner/*.py",), ("tests/runner",)),
    "diagnosis": Part(("termprobe/diagnosis/*.py",), ("tests/diagnosis",)),
    "profile": Part(("termprobe/profile/*.py",), ("tests/profile",)),
    "terminal": Part(("termprobe/terminal/*.py",), ("tests/terminal",)),
    "session": Part(
        (
            "termprobe/session/modes/*.py",
            "termprobe/session/react/*.py",
            "termprobe/session/shared_keys.py",
        ),
        ("tests/session",),
    ),
}
SHIPPED_TESTS = (
    *("tests/script", "tests/profile", "tests/golden"),
    *("tests/plan", "tests/terminal"),
)
"""The tests that read the shipped profiles and scripts."""
PYTEST_OPTIONS = ("-p", "no:xdist", "-m", "not slow")
