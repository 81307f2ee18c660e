"""What a later version adds to a part is kept, and written again."""

from termprobe.journal.codec import decode, encode
from termprobe.journal.records import Answered

DOCUMENT = {
    "kind": "answer",
    "step": "a",
    "answer": {"word": "as-expected"},
    "against": {"faults": ["f"], "rows": ["AB"], "hue": "green"},
}


def test_fields_of_a_part_that_are_not_known_are_kept():
    record = decode(DOCUMENT)
    assert isinstance(record, Answered) and record.against is not None
    assert record.against.more == {"hue": "green"}
    assert encode(record)["against"] == DOCUMENT["against"]
