"""The code map of DEVELOPERS.md names every module, in the row of its folder, and no other."""

import re

from helpers.paths import ROOT

PACKAGE = ROOT / "termprobe"
GROUND = "ground files"


def rows():
    """Return folder -> names of the modules that its row names."""
    text = (ROOT / "DEVELOPERS.md").read_text(encoding="utf-8")
    section = text.split("## Code map")[1].split("\n## ")[0]
    found = re.findall(r"^\| ([\w/ ]+?)/? \| (.*) \|$", section, re.M)
    return {folder: re.findall(r"`(\w+\.py)`", names) for folder, names in found[1:]}


def folders():
    """Return folder -> names of its modules, in order of name."""
    found = {}
    for path in sorted(PACKAGE.rglob("*.py")):
        folder = path.parent.relative_to(PACKAGE).as_posix()
        if path.name != "__init__.py":
            found.setdefault(GROUND if folder == "." else folder, []).append(path.name)
    return found


def test_each_module_stands_once_in_the_row_of_its_folder():
    assert {folder: sorted(names) for folder, names in rows().items()} == folders()
