"""Mutants of the shipped profiles and scripts, tried one at a time in a copy of the checkout."""

import difflib
import pathlib
from typing import NamedTuple

from .copied import run_in
from .mutants import Survivor, drawn
from .parts import PYTEST_OPTIONS, SHIPPED_TESTS
from .source_part import MutationError
from .yaml_mutants import Mutant, mutants

FOLDERS = ("profiles", "scripts")


class OfFile(NamedTuple):
    """A mutant, with the path and the text of the file that it is one of."""

    path: str
    before: str
    mutant: Mutant

    @property
    def after(self) -> str:
        return self.mutant.of(self.before)


def all_mutants(copy: pathlib.Path) -> list[OfFile]:
    """Return every mutant of every shipped file, in order of path."""
    found = []
    for folder in FOLDERS:
        for file in sorted((copy / folder).glob("*.yaml")):
            text = file.read_text(encoding="utf-8")
            path = file.relative_to(copy).as_posix()
            found += [OfFile(path, text, mutant) for mutant in mutants(text)]
    return found


def diff_of(made: OfFile) -> str:
    lines = difflib.unified_diff(
        made.before.split("\n"), made.after.split("\n"), made.path, made.path, "", "", 1, ""
    )
    return "\n".join(lines)


def tests_pass(copy: pathlib.Path) -> bool:
    words = ["-m", "pytest", "-x", "-q", *PYTEST_OPTIONS, *SHIPPED_TESTS]
    return run_in(copy, words).returncode == 0


def survives(copy: pathlib.Path, made: OfFile) -> bool:
    """Run the tests with the mutant in its place, then put the file back."""
    file = copy / made.path
    file.write_text(made.after, encoding="utf-8")
    try:
        return tests_pass(copy)
    finally:
        file.write_text(made.before, encoding="utf-8")


def try_shipped(copy: pathlib.Path, sample: int, seed: int) -> tuple[int, list[Survivor]]:
    """Return how many mutants of the shipped files were tried, and those that survived.

    Raises MutationError where the tests fail without a mutant.
    """
    everything = all_mutants(copy)
    chosen = drawn(everything, sample, seed)
    print(f"{len(chosen)} of {len(everything)} mutants, {' '.join(SHIPPED_TESTS)}", flush=True)
    if not tests_pass(copy):
        raise MutationError("the tests fail without a mutant")
    survivors = []
    for made in chosen:
        if survives(copy, made):
            location = f"{made.path} {made.mutant.location}"
            survivors.append(Survivor(location, diff_of(made), "every test passed"))
    return len(chosen), survivors
