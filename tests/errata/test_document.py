"""The JSON document has the form that other programs read, and survives being written.

Its schema is made of the records of document_records.py.
"""

import json

import jsonschema
import pytest

from helpers.batches import cause, grouped, summary
from helpers.paths import ROOT
from termprobe.errata.batch import batch_of
from termprobe.errata.document import errata_document
from termprobe.errata.origin import findings_of
from termprobe.errata.summary import UnreadRun
from termprobe.errata.time_to_cause import TimeToCause

SCHEMA = json.loads((ROOT / "termprobe/errata/errata.schema.json").read_text("utf-8"))
FAULT = "bank-1-data/swapped/2-3"


def document(batch, *unread):
    """Return the document, which the schema in the repository allows."""
    made = json.loads(json.dumps(errata_document(batch, findings_of(batch), unread)))
    jsonschema.validate(made, SCHEMA)
    return made


def test_boards_revisions_steps_and_findings_stand_where_they_are_looked_for():
    found = document(grouped(FAULT, ("A", 5, 5), ("B", 4, 0)))
    assert list(found["boards"]) == ["A0", "A1", "A2", "A3", "A4", "B0", "B1", "B2", "B3"]
    assert found["boards"]["A0"]["now"] == "fail" and found["boards"]["B0"]["first"] == "pass"
    assert found["revisions"]["B"]["first_pass"] == {
        "count": 4,
        "of": 4,
        "low_95": 0.5101,
        "high_95": 1.0,
    }
    assert found["steps"][0] == {"id": "field", "failed": ["A0", "A1", "A2", "A3", "A4"]}
    (finding,) = found["findings"]
    assert finding["what"] == FAULT and finding["origin"] == "layout"
    assert finding["p"] == pytest.approx(1 / 126, abs=1e-6) == finding["p_corrected"]
    assert finding["boards"] == ["A0", "A1", "A2", "A3", "A4"] and finding["revisions"] == ["A"]
    assert "consistent with" in finding["wording"] and finding["settle"] == ""
    assert finding["goes_with"] == [{"factor": "revision", "values": ["A"]}]


def test_where_no_boards_can_be_compared_there_is_no_p():
    (finding,) = document(grouped(FAULT, ("A", 3, 1)))["findings"]
    assert (finding["origin"], finding["p"], finding["p_corrected"]) == ("board", None, None)


def test_it_holds_how_many_runs_were_filled_in_from_cards():
    batch = batch_of([summary(1), summary(2, is_from_card=True), summary(3, is_from_card=True)])
    assert document(batch)["from_cards"] == 2
    assert document(batch_of([summary(1)]))["from_cards"] == 0


def test_what_was_left_out_is_told():
    batch = batch_of([summary(1), summary(2, is_practice=True)])
    found = document(batch, UnreadRun("x", "why"))
    assert found["left_out"] == {
        "practice": 1,
        "doubles": 0,
        "unread": [{"run": "x", "why": "why"}],
    }


def test_the_time_to_the_cause_and_what_became_of_a_board_are_told():
    run = summary(1, "A", cause(FAULT), time=TimeToCause(5, 2.5, True))
    found = document(batch_of([run]))
    assert found["time_to_cause"] == {"runs": 1, "looks": 5.0, "minutes": 2.5, "unnamed": 0}
    assert found["histories"] == {"1": [f"fail ({FAULT})"]}
    assert document(batch_of([summary(1)]))["time_to_cause"] is None


def test_the_schema_allows_nothing_else():
    made = document(grouped(FAULT, ("A", 2, 1)))
    for change in ({"boards": []}, {"more": 1}, {"practice": 1}, {"findings": [{"what": "x"}]}):
        with pytest.raises(jsonschema.ValidationError):
            jsonschema.validate(made | change, SCHEMA)
