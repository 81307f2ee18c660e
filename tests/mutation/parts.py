"""The parts of the program that are mutated, and the tests that matter for each.

mutmut runs of these tests the ones that call the mutated function. Left out are what only draws,
and the tests marked `slow`.
"""

from typing import NamedTuple


class Part(NamedTuple):
    """The files that are mutated, by glob, and the tests that are run."""

    files: tuple[str, ...]
    tests: tuple[str, ...]


PAGES = "tests/golden/test_plans.py"
"""What is shown of plans and profiles."""
PARTS = {
    "verdict": Part(("termprobe/verdict/*.py",), ("tests/verdict", "tests/report")),
    "plan": Part(("termprobe/plan/*.py",), ("tests/plan", "tests/script", PAGES)),
    "journal": Part(("termprobe/journal/*.py",), ("tests/journal",)),
    "runner": Part(("termprobe/runner/*.py",), ("tests/runner",)),
    "diagnosis": Part(("termprobe/diagnosis/*.py",), ("tests/diagnosis",)),
    "profile": Part(("termprobe/profile/*.py",), ("tests/profile", PAGES)),
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
    PAGES,
    "tests/golden/test_looks.py",
    "tests/script",
    "tests/profile",
    "tests/report/test_keyboard_drawing.py",
    "tests/plan",
    "tests/terminal",
)
"""The tests that read the shipped profiles and scripts, quick ones first."""
PYTEST_OPTIONS = ("-p", "no:xdist", "-m", "not slow")
