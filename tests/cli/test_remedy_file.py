"""The file with the designer's words is begun once, and never changed."""

import pathlib

import pytest

from helpers.batches import grouped
from termprobe.cli.remedy_file import known_remedies, tell_of_items
from termprobe.errata.origin import findings_of
from termprobe.errata.sheet import sheet_of
from termprobe.errors import FileError

FAULT = "bank-1-data/swapped/2-3"


def made(path):
    batch = grouped(FAULT, ("A", 5, 5), ("B", 4, 0))
    return sheet_of(batch, findings_of(batch), known_remedies(path))


def test_where_there_is_none_it_is_begun_and_then_kept(tmp_path, capsys):
    path = str(tmp_path / "r.yaml")
    assert known_remedies(None) == known_remedies(path) == ()
    tell_of_items(made(path), path)
    assert "Begun" in capsys.readouterr().err
    (entry,) = known_remedies(path)
    assert entry.what == FAULT
    before = pathlib.Path(path).read_text(encoding="utf-8")
    tell_of_items(made(path), path)
    assert (
        capsys.readouterr().err == "" and pathlib.Path(path).read_text(encoding="utf-8") == before
    )


def test_an_item_without_an_entry_is_told_with_one_to_add(tmp_path, capsys):
    path = tmp_path / "r.yaml"
    path.write_text("remedies:\n  - {what: a, remedy: x}\n")
    tell_of_items(made(str(path)), str(path))
    told = capsys.readouterr().err
    assert "has no entry for what follows" in told
    path.write_text(path.read_text() + told.split("\n", 1)[1])
    assert [entry.what for entry in known_remedies(str(path))] == ["a", FAULT]


def test_a_file_that_cannot_be_begun_or_used_is_an_error(tmp_path):
    path = str(tmp_path / "none" / "r.yaml")
    with pytest.raises(FileError, match="try another name"):
        tell_of_items(made(path), path)
    broken = tmp_path / "r.yaml"
    broken.write_text("remedies: 7\n")
    with pytest.raises(FileError, match="must be a list"):
        known_remedies(str(broken))
