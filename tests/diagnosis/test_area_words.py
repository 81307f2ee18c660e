"""The wordings for a part of the screen, as people use them."""

import pytest

from termprobe.diagnosis.area import readings_of
from termprobe.errors import UsageError


def told(words):
    """Return rows and columns of each reading, on a screen of 24 rows and 80 columns."""
    return [tuple(map(sorted, one.region)) for one in readings_of(words, 24, 80)]


def the_first(words):
    rows, columns = told(words)[0]
    return f"{rows[0]}-{rows[-1]}/{len(rows)} {columns[0]}-{columns[-1]}/{len(columns)}"


ALL_ROWS, ALL_COLUMNS = "0-23/24", "0-79/80"


@pytest.mark.parametrize(
    "words, rows",
    [
        ("every odd row", "1-23/12"),
        ("in even-numbered lines only", "0-22/12"),
        ("rows 13 to 24", "12-23/12"),
        ("only the bottom line", "23-23/1"),
        ("two bottom rows", "22-23/2"),
        ("lines 1, 3 and 5", "1-5/3"),
        ("between rows 4 and 7", "4-7/4"),
        ("the whole of row 3", "3-3/1"),
        ("the third row", "2-2/1"),
        ("below row 12", "13-23/11"),
        ("everywhere but the top line", "1-23/23"),
        ("upper half of the screen", "0-11/12"),
        ("on every line", ALL_ROWS),
    ],
)
def test_rows(words, rows):
    assert the_first(words) == f"{rows} {ALL_COLUMNS}"


@pytest.mark.parametrize(
    "words, columns",
    [
        ("the last 16 columns", "64-79/16"),
        ("16 columns on the right", "64-79/16"),
        ("column 8 of each row", "8-8/1"),
        ("from column 40 on", "40-79/40"),
        ("columns 0-7 and 16-23", "0-23/16"),
        ("characters 5 to 8", "5-8/4"),
        ("right hand side", "40-79/40"),
        ("columns 64 to the end", "64-79/16"),
        ("left part of the screen", "0-39/40"),
        ("left of column 16", "0-15/16"),
        ("the rightmost column", "79-79/1"),
        ("left third", "0-25/26"),
        ("columns 0..7", "0-7/8"),
        ("to the right of column 40", "41-79/39"),
        ("to the left of column 16", "0-15/16"),
        ("right of the centre", "40-79/40"),
        ("columns 64 and higher", "64-79/16"),
    ],
)
def test_columns(words, columns):
    assert the_first(words) == f"{ALL_ROWS} {columns}"


def test_both():
    assert the_first("last 4 columns of odd rows") == "1-23/12 76-79/4"
    assert the_first("odd rows and left half") == the_first("odd rows, left half")
    assert the_first("row 5 column 7") == "5-5/1 7-7/1"
    assert told("r5 c7") == told("r5c7") == told("row 5/column 7")
    assert told("both halves") == told("everywhere")


def test_vague_words_have_several_readings():
    assert len(told("every other line")) == 2 and len(told("every 4th column")) == 4
    assert len(told("every other 8 columns")) == 2 and len(told("half of the screen")) == 4
    assert told("one row in two") == told("one in two rows") == told("every other row")
    assert told("one column in four") == told("every 4th column")
    assert told("in groups of 16 columns") == told("every other 16 columns")
    assert len(told("at the right edge")) == 4 and len(told("top left corner")) == 2
    assert told("lower right") == told("bottom right corner")
    assert told("near the bottom") == told("at the bottom") and len(told("in the centre")) == 2


@pytest.mark.parametrize(
    "words",
    [
        "rows 0-9999999999",
        "every 0 row",
        "every 99 row",
        "row " + "9" * 5000,
        "not " * 2000 + "row 1",
        ", ".join(["every other row"] * 40),
        "columns 0-" + "1,2" * 3000,
    ],
)
def test_words_without_end_are_refused_at_once(words):
    with pytest.raises(UsageError, match="--where must be"):
        readings_of(words, 24, 80)
