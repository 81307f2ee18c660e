"""The designer's words are read strictly, and a new file begins as one that can be read."""

import pytest

from termprobe.errata.remedies import begun_file, remedies_in
from termprobe.errors import FileError


def test_an_entry_has_any_of_its_words():
    text = 'remedies:\n  - what: "a/stuck/3/0"\n    remedy: Cut the track.\n    check:\n'
    (entry,) = remedies_in(text, "r.yaml")
    assert (entry.what, entry.remedy, entry.check) == ("a/stuck/3/0", "Cut the track.", None)


@pytest.mark.parametrize(
    "text, finding",
    [
        (
            "remedies:\n  - what: a\n  - what: a\n",
            "r.yaml:3:11: a must have one entry, and has one above",
        ),
        ("remedies:\n  - remedy: x\n", 'r.yaml:2:5: remedy must have the key "what"'),
        ("remedies:\n  - what: a\n    remdy: x\n", 'not "remdy"; nearest is "remedy"'),
        ("items: []\n", "r.yaml:1:1: a key of remedy file must be one of remedies"),
    ],
)
def test_what_is_wrong_is_told_with_its_place(text, finding):
    with pytest.raises(FileError) as raised:
        remedies_in(text, "r.yaml")
    assert any(finding in one for one in raised.value.findings), raised.value.findings


def test_a_file_that_was_begun_can_be_read_whatever_the_items_are_called():
    items = [("a/stuck/3/0", "Line 3"), ('"\\: #x\x1b[2J', "\x1b[2J\n- what: b")]
    first, second = remedies_in(begun_file(items), "r.yaml")
    assert first.what == "a/stuck/3/0" and first.remedy is None
    assert "x1b" in second.what.lower() or "[2J" in second.what
    assert remedies_in(begun_file([]), "r.yaml") == remedies_in("remedies:\n", "r.yaml") == ()
