"""Formats of reports are found by themselves."""

import types

import pytest

from termprobe.report import table
from termprobe.report.formats import json, text


def test_the_formats_are_the_modules_of_their_folder():
    formats = table.FORMATS
    assert set(formats) == {"html", "json", "junit", "markdown", "text"}
    assert (formats["json"], formats["text"]) == (json.render, text.render)


def test_a_module_without_render_is_refused(monkeypatch):
    monkeypatch.setattr(table, "modules_in", lambda folder: [types.ModuleType("made.up")])
    with pytest.raises(TypeError, match="made.up must hold a function of reports called render"):
        table.formats_in(types.ModuleType("folder"))
