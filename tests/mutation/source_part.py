"""Mutants of the program, made and tried by mutmut in a copy of the checkout.

mutmut holds all mutants of a file in one file and switches one on at a time, notes once which tests
call which function, and forks for each mutant a process that runs those alone. That process begins
with nothing imported: what tests work out as they are imported, and what the program keeps to use
again, is worked out by the mutant.
"""

import json
import pathlib

from .copied import run_in
from .mutants import Survivor, drawn
from .parts import PYTEST_OPTIONS, Part

NAMES = "tests/mutation/mutant_names.py"
MUTATED = "mutants"
"""Where mutmut keeps the mutated program, in the copy."""
SURVIVED = {0: "every test passed", 5: "no test runs it", 33: "no test runs it"}
"""Exit code of the tests of a mutant -> how it survived. With every other one it was killed."""
NOT_TRIED = (None, 2)
LEAST_S, SLOWER = 10.0, 3.0
"""A mutant counts as killed, since it hangs, when its tests take so many times as long as without
it and that many seconds more."""


class MutationError(Exception):
    """Mutants could not be tried at all; the text is what mutmut printed last."""


def configuration(part: Part) -> str:
    """Return the section of pyproject.toml that mutmut reads."""
    settings: dict[str, object] = {
        "source_paths": ["termprobe/"],
        "only_mutate": part.files,
        "also_copy": ["profiles", "scripts", "README.md", "DEVELOPERS.md"],
        "pytest_add_cli_args": PYTEST_OPTIONS,
        "pytest_add_cli_args_test_selection": part.tests,
        "process_isolation": "forkserver",
        "forkserver_warmup": "none",
        "timeout_constant": LEAST_S,
        "timeout_multiplier": SLOWER,
    }
    lines = [f"{name} = {json.dumps(value)}" for name, value in settings.items()]
    lines.append("track_dependencies = false")
    return "\n".join(("", "[tool.mutmut]", *lines, ""))


def prepare(copy: pathlib.Path, part: Part) -> None:
    """Configure mutmut, and make its folder, which has to stand there when Python starts."""
    with (copy / "pyproject.toml").open("a", encoding="utf-8") as file:
        file.write(configuration(part))
    (copy / MUTATED).mkdir()


def names_of(copy: pathlib.Path, part: Part) -> list[str]:
    """Return mutmut's name of every mutant of the part, sorted."""
    paths = [path for glob in part.files for path in copy.glob(glob)]
    words = [path.relative_to(copy).as_posix() for path in paths]
    ended = run_in(copy, [NAMES, *words])
    if ended.returncode:
        raise MutationError(ended.stdout[-2000:])
    return sorted(ended.stdout.split())


def exit_codes(copy: pathlib.Path) -> dict[str, int | None]:
    """Return name -> exit code of its tests, of every mutant."""
    found = {}
    for path in (copy / MUTATED).rglob("*.meta"):
        found.update(json.loads(path.read_text(encoding="utf-8"))["exit_code_by_key"])
    return found


def location(name: str) -> str:
    """Return the function of a mutant, with its module, by mutmut's name."""
    module, _, mangled = name.partition("__mutmut_")[0].rpartition(".")
    if "ǁ" not in mangled:
        return f"{module}.{mangled.removeprefix('x_')}"
    _, of_class, function = mangled.split("ǁ")
    return f"{module}.{of_class}.{function}"


def survivor(copy: pathlib.Path, name: str, how: str) -> Survivor:
    ended = run_in(copy, ["-m", "mutmut", "show", name], MUTATED)
    _, _, diff = ended.stdout.partition("\n--- ")
    return Survivor(location(name), f"--- {diff.rstrip()}", how)


def try_source(
    copy: pathlib.Path, part: Part, sample: int, seed: int
) -> tuple[int, list[Survivor]]:
    """Return how many mutants of the part were tried, and those that survived.

    Raises MutationError where the tests fail without a mutant, or mutmut does not run.
    """
    prepare(copy, part)
    everything = names_of(copy, part)
    names = drawn(everything, sample, seed)
    print(f"{len(names)} of {len(everything)} mutants, {' '.join(part.tests)}", flush=True)
    ended = run_in(copy, ["-m", "mutmut", "run", "--max-children", "1", *names], MUTATED)
    codes = exit_codes(copy)
    if any(codes.get(name) in NOT_TRIED for name in names):
        raise MutationError(ended.stdout[-4000:])
    alive = [name for name in names if codes[name] in SURVIVED]
    return len(names), [survivor(copy, name, SURVIVED[codes[name] or 0]) for name in alive]
