"""Pages beside the report of a run: an errata sheet, and two runs compared."""

import base64

from helpers.batches import cause, summary
from helpers.photos import photo
from termprobe.errata.batch import batch_of
from termprobe.errata.origin import findings_of
from termprobe.errata.sheet import sheet_of
from termprobe.errata.sheet_html import sheet_in_html
from termprobe.report.comparison import FieldCompared, PhotosCompared, RunComparison, StepCompared
from termprobe.report.comparison_page import comparison_html
from termprobe.report.facts.notes import NoteFacts, PhotoFacts
from termprobe.report.facts.pictures import CellRun, ScreenFacts

FAULT = "bank-1-data/swapped/2-3"
TITLE = "data lines 2 (U21 pin 5) and 3 (U21 pin 2) of RAM bank 1 are exchanged on the board"


def errata_html():
    """Return the sheet of thirty boards, with something on each part of it."""
    runs = []
    for number in range(30):
        causes = [cause(FAULT, title=TITLE)] if number < 15 else []
        if number % 9 == 0:
            causes.append(cause(f"cell/stuck/0-{number}-3/1", steps=("commands",)))
        board = summary(f"{number:04}", "AB"[number // 15], *causes, is_practice=True)
        runs.append(board)
    batch = batch_of(runs)
    findings = findings_of(batch)
    return sheet_in_html(sheet_of(batch, findings), batch, findings)


def compared_html():
    """Return two runs of which one step shows something else, and one has a photo."""
    rows = tuple("The quick brown fox".ljust(80) for _ in range(24))
    other = ("X" * 80, *rows[1:])
    screen = ScreenFacts(80, rows, (0, 0), other, (1, 1), (CellRun(0, 0, 80),))
    steps = (
        StepCompared("a", "The first look", "new", "pass", "fail", screen),
        StepCompared("b", "The second look", "mended", "fail", "pass"),
    )
    fields = (FieldCompared("Board", "0001", "0002"),)
    picture = photo((640, 400))
    kept = PhotoFacts("1-photo-1.jpg", "", "0" * 64, len(picture), 640, 400)
    note = NoteFacts("3 July 2026, 18:45", "The first look", "U33 is hot", kept)
    photos = (PhotosCompared("The first look", (note,), ()),)
    found = RunComparison("1.run.jsonl", "2.run.jsonl", fields, steps, 3, photos)
    return comparison_html(found, ({kept.name: base64.b64encode(picture).decode("ascii")}, {}))
