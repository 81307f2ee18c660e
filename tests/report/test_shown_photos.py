"""The photos of a run as a page of HTML holds them."""

import dataclasses

from helpers.reports import report
from termprobe.journal.kept import KeptPhoto
from termprobe.photo.found import NOT_BESIDE, FoundPhoto
from termprobe.report.shown_photos import pictures_of


def test_only_what_can_be_shown_is_held():
    kept = [KeptPhoto(name, "0" * 64, 100, 64, 32) for name in ("1.jpg", "2.jpg")]
    photos = (FoundPhoto(kept[0], picture=b"ABC"), FoundPhoto(kept[1], NOT_BESIDE))
    assert pictures_of(dataclasses.replace(report(), photos=photos)) == {"1.jpg": "QUJD"}
