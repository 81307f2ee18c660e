"""The modules of a folder are found by themselves, in an order that does not depend on the disk."""

import importlib
import sys

import pytest

from termprobe.listing import lacking, modules_in


@pytest.fixture
def folder(tmp_path, monkeypatch):
    package = tmp_path / "made_up_folder"
    package.mkdir()
    for name in ("__init__", "later", "earlier", "middle"):
        (package / f"{name}.py").write_text(f'"""{name}"""\nNAME = "{name}"\n', encoding="utf-8")
    (package / "notes.txt").write_text("no module", encoding="utf-8")
    monkeypatch.syspath_prepend(tmp_path)
    yield importlib.import_module("made_up_folder")
    for name in [name for name in sys.modules if name.startswith("made_up_folder")]:
        del sys.modules[name]


def test_each_module_is_found_by_alphabet_and_nothing_else(folder):
    assert [module.NAME for module in modules_in(folder)] == ["earlier", "later", "middle"]


def test_what_a_module_lacks_is_said_with_its_name(folder):
    error = lacking(folder, "MODE", "a Mode")
    assert str(error) == "made_up_folder must hold a Mode called MODE, and does not"
