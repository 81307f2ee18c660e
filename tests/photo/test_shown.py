"""In a page stand small pictures of the photos that are whole."""

import hashlib

from helpers.photos import photo
from termprobe.journal.kept import KeptPhoto
from termprobe.photo.found import FoundPhoto
from termprobe.photo.keeping import keep_photo
from termprobe.photo.picture import kept_picture
from termprobe.photo.shown import NOT_SHOWN, with_pictures


def test_whole_ones_are_shown_and_others_say_why_not(tmp_path):
    run_file = str(tmp_path / "a.run.jsonl")
    (tmp_path / "taken.png").write_bytes(photo(format_="PNG"))
    whole = FoundPhoto(keep_photo(str(tmp_path / "taken.png"), run_file))
    (tmp_path / "text.jpg").write_bytes(b"text")
    digest = hashlib.sha256(b"text").hexdigest()
    no_picture = FoundPhoto(KeptPhoto("text.jpg", digest, 4))
    gone = FoundPhoto(KeptPhoto("gone.jpg"), "is gone")
    shown = with_pictures(run_file, [whole, no_picture, gone])
    assert kept_picture(shown[0].picture)[1:] == (64, 32)
    assert [one.trouble for one in shown] == ["", NOT_SHOWN, "is gone"]
    assert [one.picture for one in shown[1:]] == [b"", b""]
