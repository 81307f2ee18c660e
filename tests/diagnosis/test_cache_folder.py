"""What is kept is found whole or not at all; trouble with the folder is nobody's trouble."""

import os
import re

import pytest

from helpers.paths import ROOT
from termprobe.diagnosis import cache_folder
from termprobe.diagnosis.cache_folder import MOST_FILES, WORKED_OUT_BY, find, keep, key_of


@pytest.fixture(autouse=True)
def home(tmp_path, monkeypatch):
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path / "cache"))
    return tmp_path / "cache" / "termprobe"


def test_what_is_kept_is_found_again(home):
    assert find("a") is None and not home.exists()
    keep("a", b"one")
    keep("b", b"")
    assert (find("a"), find("b"), find("c")) == (b"one", b"", None)
    keep("a", b"two")
    assert find("a") == b"two" and sorted(os.listdir(home)) == ["a", "b"]


def test_without_the_variable_it_is_kept_below_the_home_folder(tmp_path, monkeypatch):
    monkeypatch.delenv("XDG_CACHE_HOME")
    monkeypatch.setenv("HOME", str(tmp_path))
    keep("a", b"one")
    assert (tmp_path / ".cache" / "termprobe" / "a").exists() and find("a") == b"one"


@pytest.mark.parametrize(
    "damage", [lambda data: data[:-1], lambda data: b"", lambda data: data[1:]]
)
def test_what_is_damaged_is_not_found(home, damage):
    keep("a", b"one")
    (home / "a").write_bytes(damage((home / "a").read_bytes()))
    assert find("a") is None


def test_a_flipped_bit_is_noticed_wherever_it_is(home):
    keep("a", b"one")
    whole = (home / "a").read_bytes()
    for index in range(len(whole)):
        (home / "a").write_bytes(whole[:index] + bytes([whole[index] ^ 4]) + whole[index + 1 :])
        assert find("a") is None


def test_a_folder_that_cannot_be_written_or_read_is_no_trouble(home):
    home.parent.mkdir()
    home.write_text("a file stands where the folder should be")
    keep("a", b"one")
    assert find("a") is None


def test_a_writing_that_fails_leaves_what_was_kept_and_nothing_else(home, monkeypatch):
    keep("a", b"one")

    def full(*_):
        raise OSError("no space left")

    monkeypatch.setattr(cache_folder.os, "replace", full)
    keep("a", b"two")
    assert find("a") == b"one" and os.listdir(home) == ["a"]


def test_the_oldest_files_are_thrown_away(home):
    for number in range(MOST_FILES):
        keep(f"{number}", b"one")
        os.utime(home / f"{number}", (number, number))
    keep("new", b"one")
    assert find("0") is None and find("1") == find("new") == b"one"


def test_what_was_found_lately_stays(home):
    for number in range(MOST_FILES):
        keep(f"{number}", b"one")
        os.utime(home / f"{number}", (number, number))
    assert find("0") == b"one"
    keep("new", b"one")
    assert find("1") is None and find("0") == find("new") == b"one"


def test_the_code_is_read_once(monkeypatch):
    key = key_of("ab")
    monkeypatch.setattr(cache_folder.pathlib.Path, "read_bytes", None)
    assert key_of("ab") == key


def test_a_key_follows_from_every_part_and_from_the_code(monkeypatch):
    keys = {key_of("ab", "c"), key_of("a", "bc"), key_of("ab", "c", ""), key_of("ab")}
    assert len(keys) == 4 and key_of("ab", "c") in keys
    monkeypatch.setattr(cache_folder, "__version__", "0")
    assert key_of("ab", "c") not in keys


def test_the_code_is_that_of_all_folders_that_diagnosis_rests_on():
    table = (ROOT / "DEVELOPERS.md").read_text(encoding="utf-8")
    (row,) = re.findall(r"^\| diagnosis/ \| (.*?) \|$", table.split("## Code map")[0], re.MULTILINE)
    assert set(row.split()) | {"diagnosis"} <= set(WORKED_OUT_BY)
