"""Two runs as JSON, which the schema in the repository allows."""

import dataclasses
import json

import jsonschema
import pytest

from helpers.paths import ROOT
from termprobe.report.comparison import FieldCompared, PhotosCompared, RunComparison, StepCompared
from termprobe.report.comparison_document import comparison_document
from termprobe.report.facts.notes import NoteFacts, PhotoFacts
from termprobe.report.facts.pictures import CellRun, ScreenFacts

SCHEMA = json.loads((ROOT / "termprobe/report/compare.schema.json").read_text("utf-8"))
SCREEN = ScreenFacts(
    80, ("A" * 80, "B" * 80), (0, 0), ("A" * 80, "B" * 78 + "XX"), (1, 2), (CellRun(1, 78, 2),)
)
STEPS = (
    StepCompared("a", "The first look", "new", "pass", "fail", SCREEN),
    StepCompared("b", "The second look", "mended", "fail", "pass"),
)
FOUND = RunComparison("1.run.jsonl", "2.run.jsonl", (FieldCompared("Board", "1", "2"),), STEPS, 3)


def test_the_document_holds_both_screens():
    document = json.loads(json.dumps(comparison_document(FOUND)))
    assert document["worse"] is True and document["same"] == 3
    first, second = document["steps"]
    assert first["screens"]["second"][1].endswith("XX")
    assert first["screens"]["cursors"] == [[0, 0], [1, 2]] and second["screens"] is None
    assert document["fields"] == [{"name": "Board", "first": "1", "second": "2"}]
    jsonschema.validate(document, SCHEMA)


def test_where_a_cursor_is_not_known_it_is_null_and_allowed():
    screen = dataclasses.replace(SCREEN, cursor=None)
    step = dataclasses.replace(STEPS[0], screen=screen)
    document = json.loads(
        json.dumps(comparison_document(dataclasses.replace(FOUND, steps=(step,))))
    )
    jsonschema.validate(document, SCHEMA)
    assert document["steps"][0]["screens"]["cursors"] == [None, [1, 2]]
    with pytest.raises(jsonschema.ValidationError):
        jsonschema.validate(document | {"same": "3"}, SCHEMA)


def test_photos_are_told_with_their_notes():
    photo = PhotoFacts("1.jpg", "", "0" * 64, 100, 64, 32)
    photos = (PhotosCompared("a", (NoteFacts("18:51", "a", "hot", photo),), ()),)
    document = comparison_document(dataclasses.replace(FOUND, photos=photos))
    jsonschema.validate(document, SCHEMA)
    assert document["photos"][0]["first"][0]["photo"]["name"] == "1.jpg"
