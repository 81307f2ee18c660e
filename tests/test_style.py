"""The hand in which the code is written: short functions and files, one idea a line."""

import ast
import re

import pytest

from helpers.paths import ROOT

FILES = sorted((ROOT / "termprobe").rglob("*.py"))
FUNCTION_LINES, FILE_LINES, DEPTH = 40, 300, 4
CONDITIONALS = 15
"""Conditional expressions in 1,000 lines of code, over all files."""
COMPREHENSIONS = (ast.ListComp, ast.SetComp, ast.DictComp, ast.GeneratorExp)
BLOCKS = (ast.If, ast.For, ast.While, ast.With, ast.Try, ast.Match)
DOCUMENTED = (ast.Module, ast.ClassDef, ast.FunctionDef, ast.AsyncFunctionDef)


def trees():
    for path in FILES:
        yield path.relative_to(ROOT), ast.parse(path.read_text(encoding="utf-8"))


def inside(node, kinds):
    """Yield the nodes of `kinds` somewhere below `node`."""
    for child in ast.walk(node):
        if child is not node and isinstance(child, kinds):
            yield child


def code_lines(text):
    """Return how many lines are neither blank nor comment alone."""
    return sum(bool(line.strip()) and not line.strip().startswith("#") for line in text.split("\n"))


def depth(node):
    """Return how deep blocks stand in one another within `node`.

    An elif is no deeper than its if.
    """
    deepest = 0
    for child in ast.iter_child_nodes(node):
        is_elif = isinstance(node, ast.If) and node.orelse == [child]
        own = isinstance(child, BLOCKS) and not is_elif
        if not isinstance(child, ast.FunctionDef | ast.AsyncFunctionDef):
            deepest = max(deepest, own + depth(child))
    return deepest


def test_functions_and_files_are_short():
    wrong = []
    for path, tree in trees():
        lines = (ROOT / path).read_text(encoding="utf-8").count("\n")
        if lines > FILE_LINES:
            wrong.append(f"{path}: {lines} lines")
        for function in inside(tree, (ast.FunctionDef, ast.AsyncFunctionDef)):
            size = function.end_lineno - function.lineno + 1
            if size > FUNCTION_LINES:
                wrong.append(f"{path}:{function.lineno}: {function.name} has {size} lines")
    assert not wrong, "\n".join(wrong)


def test_blocks_are_not_nested_deeply():
    wrong = []
    for path, tree in trees():
        for function in inside(tree, (ast.FunctionDef, ast.AsyncFunctionDef)):
            if depth(function) > DEPTH:
                wrong.append(f"{path}:{function.lineno}: {function.name}")
    assert not wrong, "\n".join(wrong)


@pytest.mark.parametrize(
    "kinds", [(ast.IfExp,), COMPREHENSIONS], ids=["conditional", "comprehension"]
)
def test_no_conditional_stands_in_another_and_no_comprehension(kinds):
    wrong = []
    for path, tree in trees():
        for node in inside(tree, kinds):
            if any(inside(node, kinds)):
                wrong.append(f"{path}:{node.lineno}")
    assert not wrong, "\n".join(wrong)


def test_conditional_expressions_are_rare():
    lines = sum(code_lines(path.read_text(encoding="utf-8")) for path in FILES)
    found = sum(len(list(inside(tree, (ast.IfExp,)))) for _, tree in trees())
    assert found * 1000 <= CONDITIONALS * lines, f"{found} in {lines} lines"


def test_no_check_of_types_is_waved_through_without_a_reason():
    wrong = []
    for path in FILES:
        for number, line in enumerate(path.read_text(encoding="utf-8").split("\n"), 1):
            if re.search(r"# (type: ignore|noqa)(?!.* - )", line):
                wrong.append(f"{path.relative_to(ROOT)}:{number}: {line.strip()}")
    assert not wrong, "\n".join(wrong)


def test_first_line_of_a_docstring_stands_alone():
    wrong = []
    for path, tree in trees():
        for node in (tree, *inside(tree, DOCUMENTED)):
            first, *rest = (ast.get_docstring(node) or "").split("\n")
            if rest and rest[0]:
                wrong.append(f"{path}: {first}")
    assert not wrong, "\n".join(wrong)
