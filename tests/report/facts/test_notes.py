"""Notes with their photos: named in each format, shown in the page, missed where gone."""

import dataclasses
import json

import html5lib
import jsonschema

from helpers.paths import ROOT
from helpers.photos import photo
from helpers.reports import report, step
from termprobe.journal.added import Added
from termprobe.journal.kept import KeptPhoto
from termprobe.journal.records import Finished, Noted
from termprobe.photo.found import NOT_BESIDE, FoundPhoto
from termprobe.photo.picture import MOST_ON_PAGE, picture_on_page
from termprobe.report.facts.notes import all_notes, notes_at
from termprobe.report.facts.times import duration_in_words
from termprobe.report.record import _ended
from termprobe.report.run_notes import RunNote, notes_of
from termprobe.report.table import FORMATS

NAME, GONE = "0042-photo-1.jpg", "0042-photo-2.jpg"
AT, LATER = "2026-01-02T03:04:06+00:00", "2026-01-09T11:00:00+00:00"
NOTED = (
    RunNote("a", AT, "U7 is hot", KeptPhoto(NAME, "ab" * 32, 5000, 1280, 960)),
    RunNote(None, LATER, "", KeptPhoto(GONE), is_afterwards=True),
    RunNote("a", LATER, "cooler now", is_afterwards=True),
)


def noted():
    pictures = (
        FoundPhoto(NOTED[0].photo, picture=picture_on_page(photo()).data),
        FoundPhoto(NOTED[1].photo, NOT_BESIDE),
    )
    return dataclasses.replace(report(step("pass")), noted=NOTED, photos=pictures)


def test_each_format_names_the_photos_and_says_which_is_missing():
    for name in ("text", "markdown", "html", "json"):
        told = " ".join(FORMATS[name]([noted()]).split())
        assert NAME in told and GONE in told and NOT_BESIDE in told, name
    assert f"U7 is hot; photo {NAME}" in FORMATS["junit"]([noted()])


def test_the_page_shows_the_photo_small_with_words_in_its_place():
    text = FORMATS["html"]([noted()])
    page = html5lib.HTMLParser(strict=True, namespaceHTMLElements=False).parse(text)
    (shown,) = page.iter("img")
    assert shown.get("alt") == "Photo at A step: U7 is hot"
    assert shown.get("src").startswith("data:image/jpeg;base64,/9j/")
    assert len(shown.get("src")) < 1.4 * MOST_ON_PAGE
    assert "<img" not in FORMATS["html"]([dataclasses.replace(noted(), photos=())])


def test_the_document_has_it_and_is_valid():
    document = json.loads(FORMATS["json"]([noted()]))
    schema = json.loads((ROOT / "termprobe/report/report.schema.json").read_text("utf-8"))
    jsonschema.validate(document, schema)
    assert document["notes"][0]["photo"]["digest"] == "ab" * 32
    assert document["notes"][1]["photo"]["trouble"] == NOT_BESIDE
    assert "photo" not in document["notes"][2]


def test_what_was_noted_afterwards_has_its_date_and_makes_no_run_longer():
    assert [one.time for one in notes_at(noted(), "a", None)][1].startswith("9 January 2026, ")
    dated = all_notes(noted(), None)
    assert [one.step for one in dated] == ["A step", "", "A step"]
    assert [one.time.endswith(", afterwards") for one in dated] == [False, True, True]
    records = (
        Finished(seq=1, at=AT),
        Added(seq=2, at=LATER),
        Noted("cooler now", "a", seq=3, at=LATER),
    )
    assert [note.is_afterwards for note in notes_of(records)] == [True]
    assert _ended(records) == AT and duration_in_words(AT, records) == "0 s"
