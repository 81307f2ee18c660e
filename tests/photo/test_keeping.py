"""The copy stands beside the run file, under a name of its own, and what cannot be is told."""

import hashlib
import os

import pytest

from helpers.photos import claiming, photo
from termprobe.errors import FileError
from termprobe.photo import keeping
from termprobe.photo.keeping import forget_photo, keep_photo


@pytest.fixture(name="picture")
def _picture(tmp_path):
    path = tmp_path / "at home.jpg"
    path.write_bytes(photo())
    return str(path)


def test_the_record_says_what_stands_beside_the_run_file(tmp_path, picture):
    kept = keep_photo(picture, str(tmp_path / "7-2026.run.jsonl"))
    data = (tmp_path / kept.name).read_bytes()
    assert kept.name == "7-2026-photo-1.jpg" and kept.digest == hashlib.sha256(data).hexdigest()
    assert (kept.size_bytes, kept.width, kept.height) == (len(data), 64, 32)


def test_no_file_is_ever_written_over(tmp_path, picture):
    run_file = str(tmp_path / "a.run.jsonl")
    (tmp_path / "a-photo-1.jpg").write_bytes(b"another")
    names = [keep_photo(picture, run_file).name for _ in range(2)]
    assert names == ["a-photo-2.jpg", "a-photo-3.jpg"]
    assert (tmp_path / "a-photo-1.jpg").read_bytes() == b"another"


def test_a_copy_without_a_record_can_be_forgotten(tmp_path, picture):
    run_file = str(tmp_path / "a.run.jsonl")
    kept = keep_photo(picture, run_file)
    for _ in range(2):
        forget_photo(kept, run_file)
    assert [path.name for path in tmp_path.iterdir()] == ["at home.jpg"]


def test_what_cannot_be_taken_is_told_by_its_path_in_one_line(tmp_path, picture, monkeypatch):
    other = tmp_path / "x"
    for data in (b"%PDF-1.7", claiming(9000, 9000)):
        other.write_bytes(data)
        with pytest.raises(FileError) as told:
            keep_photo(str(other), str(tmp_path / "a.run.jsonl"))
        assert str(told.value).startswith(f"{other}: must be ") and "\n" not in str(told.value)
    for path in (tmp_path, tmp_path / "none", "/dev/zero"):
        with pytest.raises(FileError, match="there is no such file"):
            keep_photo(str(path), str(tmp_path / "a.run.jsonl"))
    monkeypatch.setattr(keeping, "MOST_BYTES_TAKEN", 100)
    with pytest.raises(FileError, match="at most 0 MB"):
        keep_photo(picture, str(tmp_path / "a.run.jsonl"))
    assert sorted(os.listdir(tmp_path)) == ["at home.jpg", "x"]


def test_where_no_copy_can_stand_that_is_told(tmp_path, picture):
    with pytest.raises(FileError, match="the copy of the photo must be writable"):
        keep_photo(picture, str(tmp_path / "none" / "a.run.jsonl"))
