"""Many run files in short: folders, order, what is kept, and several processes."""

import os

import pytest

from helpers.club_batch import BOARDS, write_run
from termprobe.cli import summaries as module
from termprobe.cli.summaries import run_files, split, summaries
from termprobe.errata.summary import RunSummary
from termprobe.errors import UsageError


@pytest.fixture(name="folder", scope="module")
def _folder(tmp_path_factory):
    """Return a folder with two run files in folders of it, and one that is broken."""
    folder = tmp_path_factory.mktemp("runs")
    for board, port in zip(BOARDS[6:8], ("sim:", "sim:scroll/dead"), strict=True):
        write_run(folder / board.serial / "a.run.jsonl", board, port)
    (folder / "broken.run.jsonl").write_bytes(b"\xff\x00 [")
    (folder / "beside.txt").write_text("no run")
    return folder


def test_a_folder_stands_for_all_run_files_in_it(folder):
    found = run_files([os.fspath(folder), os.fspath(folder / "broken.run.jsonl")])
    names = [os.path.relpath(path, folder).split(os.sep)[0] for path in found]
    assert names == ["07", "08", "broken.run.jsonl"], "each once"


def test_a_folder_without_run_files_is_refused(tmp_path):
    with pytest.raises(UsageError, match="this one holds none"):
        run_files([os.fspath(tmp_path)])


def test_they_come_in_order_and_are_kept(folder, monkeypatch):
    paths = run_files([os.fspath(folder)])
    first = list(summaries(paths))
    read, unread = split(first)
    assert [run.serial for run in read] == ["07", "08"] and len(unread) == 1
    monkeypatch.setattr("termprobe.cli.summarised.recorded_of", None)
    again, _ = split(summaries(paths))
    assert again == read


def test_what_is_kept_may_be_anything(folder, monkeypatch):
    paths = run_files([os.fspath(folder)])
    for kept in (b"", b"x", b"\x78\x9c"):
        monkeypatch.setattr(module, "find", lambda _, kept=kept: kept)
        assert len(split(summaries(paths))[0]) == 2


def test_several_processes_find_the_same(folder, monkeypatch):
    paths = run_files([os.fspath(folder)])
    here = list(summaries(paths))
    monkeypatch.setattr(module, "FEWEST", 1)
    monkeypatch.setattr(module, "find", lambda _: None)
    monkeypatch.setattr(module.os, "cpu_count", lambda: 2)
    assert list(summaries(paths)) == here


def test_from_a_folder_that_is_gone_they_are_read_too(folder, tmp_path, monkeypatch):
    here = os.path.join(tmp_path, "here")
    os.mkdir(here)
    monkeypatch.chdir(here)
    os.rmdir(here)
    assert [len(part) for part in split(summaries(["a.run.jsonl", *run_files([folder])]))] == [2, 2]


def test_of_what_comes_some_was_read(folder):
    assert all(isinstance(run, RunSummary) for run in split(summaries(run_files([folder])))[0])
