"""No name stands for two things in one program."""

import ast
import collections

from helpers.paths import ROOT

PACKAGE = ROOT / "termprobe"
ONE_EACH = {"BLOCKS", "MODE", "OFFER"}
"""What each file of a kind exports under one name, and is found by."""


def files():
    for path in sorted(PACKAGE.rglob("*.py")):
        yield path, ast.parse(path.read_text(encoding="utf-8"))


def named(node):
    """Yield (name, what it stands for) of each constant and type that a statement makes."""
    targets, value = [], getattr(node, "value", None)
    if isinstance(node, ast.AnnAssign):
        targets = [node.target]
    elif isinstance(node, ast.Assign):
        targets = node.targets
    for target in targets:
        if isinstance(target, ast.Tuple) and isinstance(value, ast.Tuple):
            yield from (
                (one.id, ast.dump(own)) for one, own in zip(target.elts, value.elts, strict=True)
            )
        elif isinstance(target, ast.Name):
            yield target.id, ast.dump(value)


def homes():
    """Return name -> file -> what it stands for there: a class of its own, or a value."""
    found = collections.defaultdict(dict)
    for path, tree in files():
        for node in tree.body:
            if isinstance(node, ast.ClassDef):
                found[node.name][path.name] = f"class in {path}"
            for name, value in named(node):
                found[name][path.name] = value
    return found


def imported():
    names = set()
    for _, tree in files():
        for node in ast.walk(tree):
            if isinstance(node, ast.ImportFrom):
                names |= {alias.name for alias in node.names}
    return names


def test_a_class_or_what_others_import_has_a_name_of_its_own():
    shared, doubled = imported() - ONE_EACH, {}
    for name, stands_for in homes().items():
        is_public = not name.startswith("_")
        is_class = any(text.startswith("class ") for text in stands_for.values())
        if is_public and (is_class or name in shared) and len(set(stands_for.values())) > 1:
            doubled[name] = sorted(stands_for)
    assert doubled == {}
