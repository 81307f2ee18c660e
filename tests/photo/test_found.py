"""Photos are looked for beside the run file: whole, missing, altered, or named by somebody bad."""

import pytest

from helpers.photos import photo
from termprobe.journal.kept import KeptPhoto
from termprobe.journal.records import Noted
from termprobe.photo.found import ALTERED, NOT_BESIDE, UNSAFE, photos_of
from termprobe.photo.keeping import keep_photo


@pytest.fixture(name="kept")
def _kept(tmp_path):
    path = tmp_path / "taken.jpg"
    path.write_bytes(photo())
    return keep_photo(str(path), str(tmp_path / "a.run.jsonl"))


def troubles(tmp_path, *kept):
    records = [Noted("", photo=one) for one in kept]
    return [one.trouble for one in photos_of(str(tmp_path / "a.run.jsonl"), records)]


def test_one_that_is_as_it_was_has_no_trouble_and_is_told_once(tmp_path, kept):
    assert troubles(tmp_path, kept, kept) == [""]
    assert photos_of("a", [Noted("")]) == ()


def test_one_that_is_missing_or_altered_is_known(tmp_path, kept):
    path = tmp_path / kept.name
    data = bytearray(path.read_bytes())
    data[-9] ^= 1
    path.write_bytes(data)
    assert troubles(tmp_path, kept) == [ALTERED]
    path.write_bytes(data[:-1])
    assert troubles(tmp_path, kept) == [ALTERED]
    path.unlink()
    assert troubles(tmp_path, kept) == [NOT_BESIDE]
    path.mkdir()
    assert troubles(tmp_path, kept) == [NOT_BESIDE]


@pytest.mark.parametrize("name", ["", "..", "../a.jpg", "/etc/passwd", "c:\\a", "a\0b"])
def test_a_name_that_leads_elsewhere_is_not_followed(tmp_path, name):
    assert troubles(tmp_path, KeptPhoto(name)) == [UNSAFE]
