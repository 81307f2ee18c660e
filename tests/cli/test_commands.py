"""The table of commands, and what the modules of cli/ may know of one another."""

import argparse
import ast
import importlib
import inspect

import pytest

from helpers.paths import ROOT
from termprobe.cli.main import COMMANDS

CLI = ROOT / "termprobe" / "cli"
MODULES = sorted(path.stem for path in CLI.glob("*.py") if path.stem != "__init__")
BUILT_IN = {
    "Run": "assembly",
    "Progress": "assembly",
    "Bench": "bench",
    "open_port": "opened_line",
    "BenchRequest": "request",
    "ChoosingBuilder": "observers",
    "HandsObserver": "observers",
    "SimulatedScreenObserver": "observers",
    "Session": "full_screen",
    "Worker": "full_screen",
}
"""Parts of a bench -> the one module that builds them. The demonstration alone asks for a bench of
its own, which no command line describes."""


def tree(module):
    return ast.parse((CLI / f"{module}.py").read_text(encoding="utf-8"))


def imported(module):
    """Return the names of the modules of cli/ that a module of it imports, anywhere in it."""
    found = set()
    for node in ast.walk(tree(module)):
        if isinstance(node, ast.ImportFrom) and node.module == "termprobe.cli":
            found |= {alias.name for alias in node.names}
        elif isinstance(node, ast.ImportFrom) and node.module.startswith("termprobe.cli."):
            found.add(node.module.split(".")[2])
    return found


@pytest.mark.parametrize("name", COMMANDS)
def test_a_command_is_a_module_with_its_arguments_and_its_course(name):
    module = importlib.import_module(f"termprobe.cli.{name}")
    assert len(inspect.signature(module.add_arguments).parameters) == 1
    assert len(inspect.signature(module.run).parameters) == 1
    module.add_arguments(argparse.ArgumentParser())


@pytest.mark.parametrize("module", MODULES)
def test_no_module_imports_a_command(module):
    assert not imported(module) & set(COMMANDS)


def test_every_module_is_a_command_or_serves_one():
    used = {name for module in MODULES for name in imported(module)}
    assert set(MODULES) == {"main", *COMMANDS} | used


@pytest.mark.parametrize("part, home", BUILT_IN.items())
def test_each_part_of_a_bench_is_built_in_one_module(part, home):
    builders = {
        module
        for module in MODULES
        for node in ast.walk(tree(module))
        if isinstance(node, ast.Call) and getattr(node.func, "id", "") == part
    }
    assert builders - {"demo"} == {home}
