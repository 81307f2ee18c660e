"""The page records.md and the records say the same.

What is written is on the disk when it must be.
"""

import dataclasses
import re

from helpers.paths import ROOT
from termprobe.journal.kept import KeptPhoto, ShownWithFaults
from termprobe.journal.kinds import RECORD_KINDS
from termprobe.journal.records import Answer, BoardUnderTest, Heard, LinkUsed, Record

PAGE = (ROOT / "termprobe" / "journal" / "records.md").read_text(encoding="utf-8")
STAMP = {field.name for field in dataclasses.fields(Record)}
PARTS = {
    "board": BoardUnderTest,
    "link": LinkUsed,
    "against": ShownWithFaults,
    "photo": KeptPhoto,
    "heard": Heard,
}


def own_fields(known):
    return [field.name for field in dataclasses.fields(known) if field.name not in STAMP]


def test_the_page_names_every_kind_and_its_fields_in_their_order():
    told = {kind: own_fields(record) for kind, record in RECORD_KINDS.items()}
    kinds = PAGE[PAGE.index("## Kinds") : PAGE.index("## Parts")]
    rows = re.findall(r"^\| ([a-z-]+) \| ([a-z_, ]+) \|", kinds, re.M)
    written = {kind: fields.split(", ") for kind, fields in rows if kind != "kind"}
    assert written == told


def test_the_page_names_every_part_and_its_fields():
    parts = PAGE[PAGE.index("## Parts") :]
    rows = re.findall(r"^\| ([a-z-]+) \| ([a-z_, ]+) \|", parts, re.M)
    written = {part: fields.split(", ") for part, fields in rows if part != "part"}
    assert written == {
        **{part: own_fields(known) for part, known in PARTS.items()},
        "answer": own_fields(Answer),
    }


def test_what_nobody_could_say_again_is_synchronised():
    unsynced = {kind for kind, record in RECORD_KINDS.items() if not record.is_synced}
    assert unsynced == {"step", "sent", "received", "linked", "soak-told"}
