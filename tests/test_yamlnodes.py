"""Text becomes a tree of nodes that know their places."""

import pytest

from termprobe import yamlnodes
from termprobe.errors import FileError
from termprobe.findings import Findings, Place
from termprobe.yamlnodes import MAX_DEPTH, List, Map, Refused, Scalar, tree


def read(text):
    """Return the node, and the findings that were noted on the way."""
    findings = Findings("f")
    node = tree(text, findings)
    return node, [finding.text.removeprefix("f:") for finding in findings]


def refused(text):
    """Return the findings on a text that is no YAML."""
    with pytest.raises(FileError) as caught:
        tree(text, Findings("f"))
    return [finding.removeprefix("f:") for finding in caught.value.findings]


@pytest.mark.parametrize(
    "text",
    [
        "{a: How much?, b: is it ? or  not?}",
        "[a?b, a ? b, x?]",
        "{a: so? # a comment\n}",
        "{a: why?\n  or not}",
        "a: is it?\nb: [x, y]",
        "{a: 'quoted?', b: -1}",
    ],
)
def test_both_readers_find_the_same_where_a_question_stands(text, monkeypatch):
    first = read(text)
    monkeypatch.setattr(yamlnodes, "_LOADER", yamlnodes.PlainLoader)
    assert read(text) == first and not first[1]


def test_scalars_lists_and_mappings_know_where_they_stand():
    node, findings = read("a: 1\nb:\n  - 'x'\n  -")
    one = Scalar("1", True, Place(1, 4))
    listed = List((Scalar("x", False, Place(3, 5)), Scalar("", True, Place(4, 4))), Place(3, 3))
    pairs = ((Scalar("a", True, Place(1, 1)), one), (Scalar("b", True, Place(2, 1)), listed))
    assert (node, findings) == (Map(pairs, Place(1, 1)), [])


@pytest.mark.parametrize(("text", "is_empty"), [("a:", True), ("a: ''", False), ("a: b", False)])
def test_a_value_is_empty_where_nothing_is_written(text, is_empty):
    node, _ = read(text)
    assert node.pairs[0][1].is_empty is is_empty


def test_no_value_is_typed_by_its_looks():
    node, _ = read("[yes, 012, 1e3, ~, 2001-01-01]")
    assert [item.text for item in node.items] == ["yes", "012", "1e3", "~", "2001-01-01"]


def test_an_alias_is_refused_and_the_rest_is_read():
    node, findings = read("[&a x, *a]")
    assert node.items[1] == Refused(Place(1, 8))
    assert findings == ["1:8: must be written out, not an alias (*name) of another place"]


@pytest.mark.parametrize(
    ("text", "finding"),
    [
        ("a: 1\na: 2", '2:1: each key must stand once, not "a" again'),
        ("? [a]\n: b", "1:3: a key must be one word, not a list or mapping"),
        ("<<: {a: b}", "1:1: must be written out, not merged (<<) from another place"),
        ("a: !x b", "1:4: must be plain YAML, not the tag !x"),
    ],
)
def test_what_is_not_plain_is_a_finding(text, finding):
    assert read(text)[1] == [finding]


@pytest.mark.parametrize(
    ("text", "finding"),
    [
        ("", "1:1: must hold a YAML mapping, not nothing"),
        ("a: b\n--- c", "2:1: must be one document, not a second one"),
        ("a: 'b", "1:6: must be YAML: found unexpected end of stream"),
        ("a: b\n\tc: d", "2:1: must be indented with blanks, not a TAB"),
        ("a: \x07", "1:4: must be printable text, not the character 07h"),
        ("[" * 40 + "]" * 40, f"1:32: must be nested at most {MAX_DEPTH} deep, not deeper"),
    ],
)
def test_what_is_no_yaml_is_refused(text, finding):
    assert refused(text) == [finding]
