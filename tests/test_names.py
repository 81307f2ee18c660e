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


def test_no_two_classes_have_one_name():
    homes = collections.defaultdict(list)
    for path, tree in files():
        for node in tree.body:
            if isinstance(node, ast.ClassDef) and not node.name.startswith("_"):
                homes[node.name].append(path.name)
    assert {name: where for name, where in homes.items() if len(where) > 1} == {}


def test_a_constant_that_others_import_has_a_name_of_its_own():
    homes, imported = collections.defaultdict(set), set()
    for path, tree in files():
        for node in ast.walk(tree):
            if isinstance(node, ast.ImportFrom):
                imported |= {alias.name for alias in node.names}
        for node in tree.body:
            if isinstance(node, ast.Assign):
                names = [target.id for target in node.targets if isinstance(target, ast.Name)]
                for name in names:
                    homes[name].add(path.relative_to(PACKAGE).as_posix())
    shared = {name: sorted(homes[name]) for name in imported - ONE_EACH if len(homes[name]) > 1}
    assert shared == {}
