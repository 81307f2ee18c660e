"""The pages that README shows as pictures, and by which it is known that these are current."""

import hashlib
import os
import pathlib
import tempfile

from helpers.club_batch import on_one_day
from helpers.paths import ROOT
from helpers.program import called

FOLDER = ROOT / "tests" / "pictures"
DIGESTS = FOLDER / "pages.sha256"
REPORTED = "board-04.run.jsonl"
"""The run of which the report is shown: the first of a board whose layout is wrong."""


def pages(club):
    """Return name -> HTML of each page; `club` is the folder of the club's run files."""
    (first,) = pathlib.Path(club, "04", "run-1").glob("*.run.jsonl")
    before = os.getcwd(), os.environ.get("TZ")
    with tempfile.TemporaryDirectory() as folder:
        pathlib.Path(folder, REPORTED).write_bytes(on_one_day(first.read_bytes()))
        os.chdir(folder)
        os.environ["TZ"] = "UTC"
        try:
            return {
                "report": called("report", REPORTED, "--format", "html").stdout,
                "errata": called("errata", club, "--format", "html").stdout,
            }
        finally:
            os.chdir(before[0])
            del os.environ["TZ"]
            os.environ |= {"TZ": before[1]} if before[1] is not None else {}


def digests(shown):
    """Return the text of the file that says of which pages the pictures are."""
    lines = [f"{hashlib.sha256(page.encode()).hexdigest()}  {name}" for name, page in shown.items()]
    return "\n".join(lines) + "\n"


def picture_of(name):
    return pathlib.Path(FOLDER, f"{name}.png")
