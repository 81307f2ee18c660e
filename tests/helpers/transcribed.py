"""Tables that were copied by hand from published sources."""

from helpers.paths import TESTS


def rows(name):
    """Return the cells of each row of a transcribed table, as text."""
    text = (TESTS / "golden" / "transcribed" / name).read_text(encoding="utf-8")
    lines = [line for line in text.splitlines() if line and line[0] != "#"]
    return [[cell.strip() for cell in line.split("|")] for line in lines]
