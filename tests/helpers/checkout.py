"""A copy of the program in a folder of its own, for tests that add to it as DEVELOPERS.md tells."""

import os
import re
import shutil
import subprocess
import sys

from helpers.paths import ROOT


class Checkout:
    """Package, profiles and scripts in `folder`; the ones beside the tests stay as they are."""

    def __init__(self, folder):
        self.folder = folder
        ignored = shutil.ignore_patterns("shipped")
        for name in ("termprobe", "profiles", "scripts"):
            shutil.copytree(ROOT / name, folder / name, ignore=ignored)

    def add(self, path, text):
        """Add a file; it must be new."""
        target = self.folder / path
        assert not target.exists(), path
        target.write_text(text, encoding="utf-8")

    def edit(self, path, before, after):
        """Put `after` in the place of `before`, which must stand once in the file."""
        target = self.folder / path
        text = target.read_text(encoding="utf-8")
        assert text.count(before) == 1, f"{before!r} stands {text.count(before)} times in {path}"
        target.write_text(text.replace(before, after), encoding="utf-8")

    def run(self, *words, **fields):
        """Return the finished process of `termprobe WORDS`."""
        return self._python("-m", "termprobe.cli.main", *map(str, words), **fields)

    def python(self, code):
        """Return what `code` prints, run with the package of this copy."""
        done = self._python("-c", code)
        assert done.returncode == 0, done.stderr
        return done.stdout

    def _python(self, *words, **fields):
        environment = {**os.environ, "PYTHONPATH": str(self.folder)}
        return subprocess.run(
            [sys.executable, *words],
            cwd=self.folder,
            env=environment,
            capture_output=True,
            text=True,
            timeout=120,
            check=False,
            **fields,
        )


def files_named(recipe):
    """Return the files that a recipe of DEVELOPERS.md names in backquotes, by the recipe's
    title.
    """
    text = (ROOT / "DEVELOPERS.md").read_text(encoding="utf-8")
    recipes = text.split("## Recipes")[1].split("\n## ")[0]
    own = re.search(rf"\*\*{re.escape(recipe)}\.\*\*(.*?)(?=\n\*\*|\Z)", recipes, re.S)
    assert own, f"DEVELOPERS.md has no recipe {recipe!r}"
    return set(re.findall(r"`((?:termprobe|profiles|scripts|tests)/[\w./-]*\w)`", own[1]))
