"""A survivor is known by where it is and what it changes, and each one known still exists."""

import ast

from helpers.paths import ROOT
from mutation.mutants import Survivor
from mutation.source_part import location
from mutation.survivors import PATH, Reasons, read_known
from mutation.yaml_mutants import mutants

TEXT = """
- in: termprobe.plan.effort.effort
  change: |
    - return one + 1
    + return one - 1
  reason: >-
    Nobody calls it.
"""
DIFF = "--- a\n+++ a\n@@ -1 +1 @@\n-    return one + 1\n+    return one - 1"
SURVIVOR = Survivor("termprobe.plan.effort.effort", DIFF, "every test passed")


def test_a_survivor_with_a_reason_is_told_from_a_new_one():
    reasons = Reasons(read_known(TEXT))
    assert reasons.of(SURVIVOR) == "Nobody calls it."
    assert not reasons.of(SURVIVOR._replace(location="termprobe.plan.effort.other"))
    assert not reasons.of(SURVIVOR._replace(diff=DIFF.replace("- 1", "- 2")))
    assert read_known("[]") == []


def test_a_mutant_is_located_by_its_function():
    name = "termprobe.verdict.changes.xǁChangeǁ_seen__mutmut_34"
    assert location(name) == "termprobe.verdict.changes.Change._seen"
    assert location("termprobe.plan.show.x__rows__mutmut_2") == "termprobe.plan.show._rows"


def functions():
    """Return location -> lines, without their indentation, of each function of the program."""
    found = {}
    for path in sorted((ROOT / "termprobe").rglob("*.py")):
        module = ".".join(path.relative_to(ROOT).with_suffix("").parts)
        text = path.read_text(encoding="utf-8")
        for name, node in named(ast.parse(text)):
            lines = text.split("\n")[node.lineno - 1 : node.end_lineno]
            found[f"{module}.{name}"] = {line.strip() for line in lines}
    return found


def named(tree):
    """Yield (name, node) of each function, those of classes behind the name of the class."""
    for node in tree.body:
        if isinstance(node, ast.ClassDef):
            yield from ((f"{node.name}.{name}", inner) for name, inner in named(node))
        if isinstance(node, ast.FunctionDef):
            yield node.name, node


def shipped_locations():
    for kind in ("profiles", "scripts"):
        for path in (ROOT / kind).glob("*.yaml"):
            for mutant in mutants(path.read_text(encoding="utf-8")):
                yield f"{path.relative_to(ROOT).as_posix()} {mutant.location}"


def test_each_survivor_with_a_reason_stands_in_a_function_or_a_file_that_there_is():
    known, lines_of = read_known(PATH.read_text(encoding="utf-8")), functions()
    shipped = set(shipped_locations())
    assert len({(row.location, row.change) for row in known}) == len(known)
    for row in known:
        assert row.reason and row.location in lines_of.keys() | shipped, row.location
        taken_out = [line[2:] for line in row.change if line[0] == "-"]
        assert set(taken_out) <= lines_of.get(row.location, set(taken_out)), row
