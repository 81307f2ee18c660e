"""What is wrong with what a profile says of the dots of its characters."""

from helpers.mistakes import changed, findings_of, one_finding
from termprobe.profile.characters import character_set
from termprobe.profile.check_dots import row_lines

DOTS = "    characters: 5x7\n    columns: 6\n    lines: 10\n"


def test_the_character_set_must_be_one_that_there_is():
    found = one_finding("characters: 5x7", "characters: 5x8")
    assert 'characters must be one of 5x7, 7x9, not "5x8"; nearest is "5x7"' in found


def test_the_box_must_have_room_for_the_drawings():
    found = findings_of(changed(DOTS, DOTS.replace(": 6", ": 4").replace("10", "6")))
    assert "columns of the box must be 5 or more, not 4" in found[0]
    assert "lines of the box must be 7 or more, not 6" in found[1]


def test_lines_are_labelled_where_the_profile_tells_of_dots_and_as_many_as_it_needs():
    labels = "  labels:\n    row-scan: [a, b, c]\n    dot-column: [a, b, c, d, e]\n"
    local = "  local_position: local\n"
    assert not findings_of(changed(local, local + labels))
    found = one_finding(local, local + labels.replace("[a, b, c]", "[a, b, c, d]"))
    assert "labels of row-scan must be 3, line 0 first, not 4" in found
    without = changed(local, local + labels).replace(
        "  dots:\n" + DOTS + "    source: unverified\n", ""
    )
    assert "labels must be of one of" in findings_of(without)[0]


def test_so_many_lines_tell_a_row():
    assert row_lines(character_set("5x7")) == 3 and row_lines(character_set("7x9")) == 4
