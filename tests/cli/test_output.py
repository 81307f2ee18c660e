"""Where commands print to: a file of the user's choice, or standard output."""

import io
import sys

import pytest

from termprobe.cli.output import output
from termprobe.errors import FileError


@pytest.mark.parametrize(
    "format, printed",
    [("html", b"&#177;5"), ("junit", b"&#177;5"), ("text", b"\\xb15")],
)
def test_a_page_says_by_number_what_the_output_has_no_character_for(format, printed, monkeypatch):
    kept = io.BytesIO()
    stream = io.TextIOWrapper(kept, encoding="ascii", errors="backslashreplace")
    monkeypatch.setattr(sys, "stdout", stream)
    with output(None, format) as page:
        page.write("±5")
        page.flush()
    assert kept.getvalue() == printed


@pytest.mark.parametrize("path", ["/dev/full", "/dev/null/x", "missing/page"])
def test_a_file_that_cannot_be_written_is_told(path, tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    told = pytest.raises(FileError, match=f"{path}: must be a file that can be written")
    with told, output(path, "text") as page:
        page.write("a page")
