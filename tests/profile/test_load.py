"""Profiles are read strictly: every mistake has its finding, and no finding has no mistake."""

import pathlib
import re

import pytest
from hypothesis import given
from hypothesis import strategies as st

from helpers.examples import examples
from helpers.mistakes import IDS, SHIPPED, changed, findings_of, one_finding
from termprobe import yamlfile
from termprobe.errors import FileError
from termprobe.profile import load
from termprobe.profile.model import Profile

TWENTY_MISTAKES = pathlib.Path(__file__).with_name("twenty_mistakes.yaml")
"""Each mistake is followed by `#!` and a part of the finding that it must have."""


def test_twenty_mistakes_give_twenty_findings_in_file_order():
    text = TWENTY_MISTAKES.read_text(encoding="utf-8")
    marked = [line.partition("#! ")[2] for line in text.split("\n")]
    expected = [(number, part) for number, part in enumerate(marked, 1) if part]
    found = findings_of(text)
    assert len(expected) == 20
    assert [int(finding.split(":")[1]) for finding in found] == [number for number, _ in expected]
    for finding, (_, part) in zip(found, expected, strict=True):
        assert part in finding
        assert re.match(r"p\.yaml:\d+:\d+: ", finding)


def test_a_finding_points_at_the_column_of_the_value():
    (found,) = findings_of(changed("  rows: 24", "  rows:   none"))
    line = SHIPPED["singlebyte-24x80"].split("\n").index("  rows: 24") + 1
    assert found.startswith(f"p.yaml:{line}:11: rows must be a whole number")


@pytest.mark.parametrize(
    ("old", "new", "part"),
    [
        ("id: singlebyte-24x80\n", "", 'profile must have the key "id"'),
        ("id: singlebyte-24x80", "id:", "id must be printable text, not nothing"),
        ("id: singlebyte-24x80", "id: [a]", "id must be printable text, not a list"),
        ("id: singlebyte-24x80", 'id: "\\e[2J"', "id must be printable text"),
        ("fresh: [clear]", "fresh: clear", 'fresh must be a list, not "clear"'),
        ("fresh: [clear]", "fresh: [*x]", "must be written out, not an alias"),
        ("rows: 24", "rows: !!int 24", "must be plain YAML, not the tag tag:yaml.org,2002:int"),
        ("  stop_bits: 1", "  <<: {stop_bits: 1}\n  stop_bits: 1", "not merged (<<)"),
        ("bytes: BEL", "bytes: 07", "bytes must be written as names"),
    ],
)
def test_one_mistake_gives_one_finding(old, new, part):
    assert part in one_finding(old, new)


def test_an_anchor_that_nothing_repeats_is_no_mistake():
    assert findings_of(changed("title: 24", "title: &t 24")) == ()


@pytest.mark.parametrize("name", IDS)
def test_shipped_profiles_are_good_and_carry_their_id(name):
    assert load.load(name).id == name


def test_an_unknown_id_names_the_nearest():
    with pytest.raises(FileError, match='nearest is "ecma48-24x80"'):
        load.load("ecma48-24x8")


def test_a_file_of_the_users_own_is_read_by_its_path(tmp_path):
    path = tmp_path / "mine.yaml"
    path.write_text(changed("id: singlebyte-24x80", "id: mine"))
    assert load.load(str(path)).id == "mine"


@pytest.mark.parametrize(
    "data, part",
    [
        (b"", "must hold a YAML mapping, not nothing"),
        (b"# only a comment\n", "must hold a YAML mapping, not nothing"),
        (b"just text", 'profile must be a mapping, not "just text"'),
        (b"id: a\n\ttitle: b", "TAB"),
        (b"id: \x1b[2J", "1:5: must be printable text, not the character 1Bh"),
        (b"id: caf\xe9", "1:8: must be UTF-8 text, not the byte E9h"),
        (b"id: a\n---\nid: b", "2:1: must be one document, not a second one"),
        (b"id: 'a", "must be YAML"),
        (b"[" * 40 + b"]" * 40, "1:32: must be nested at most 30 deep, not deeper"),
        (b"[" * 100_000, "must be YAML: exceeded maximum nesting depth"),
        (b"- " * 100_000, "must be nested at most 30 deep, not deeper"),
        (b"a: &a [x]\nb: &b [*a, *a]\nc: [*b, *b]", "must be written out, not an alias"),
        (b"#" * 1_000_001, "must be at most 1,000,000 bytes, not more"),
    ],
)
def test_a_file_that_is_no_profile_gives_a_plain_finding(tmp_path, data, part):
    path = tmp_path / "bad.yaml"
    path.write_bytes(data)
    with pytest.raises(FileError) as caught:
        load.load(str(path))
    assert part in str(caught.value)
    assert all(text.startswith(str(path)) for text in caught.value.findings)


def test_many_findings_are_cut_and_counted():
    found = findings_of("\n".join(f"key{number}: x" for number in range(500)))
    assert len(found) == 101 and "more" in found[-1]


def test_a_missing_file_and_a_folder_are_plain_findings(tmp_path):
    for path in (tmp_path / "none.yaml", tmp_path):
        with pytest.raises(FileError, match="must be a readable file"):
            load.load(str(path))


WORDS = sorted(set(re.findall(r"[\w.-]+|[^\w\s]|\n +|\n", "".join(SHIPPED.values()))))
PIECES = st.one_of(
    st.sampled_from(WORDS),
    st.sampled_from(
        [
            "\t",
            "\x1b",
            "&a",
            "*a",
            "!!x",
            "<<",
            "- ",
            "? ",
            "|",
            "999999999",
            "\ufeff",
            "\ud800",
            "é",
        ]
    ),
)


@examples(60)
@given(data=st.binary(max_size=300))
def test_any_bytes_as_a_file_give_a_profile_or_findings(tmp_path_factory, data):
    path = tmp_path_factory.getbasetemp() / "any.yaml"
    path.write_bytes(data)
    try:
        assert isinstance(load.load(str(path)), Profile)
    except FileError as error:
        assert error.findings


@examples(150)
@given(
    name=st.sampled_from(IDS),
    start=st.floats(0, 1),
    length=st.integers(0, 40),
    pieces=st.lists(PIECES, max_size=5),
)
def test_any_damage_to_a_profile_gives_a_profile_or_findings(name, start, length, pieces):
    text = SHIPPED[name]
    begin = int(start * len(text))
    damaged = text[:begin] + " ".join(pieces) + text[begin + length :]
    try:
        assert isinstance(load.parse(damaged, "damaged.yaml"), Profile)
    except FileError as error:
        assert error.findings
        assert all(str(finding).startswith("damaged.yaml:") for finding in error.findings)


def test_the_shipped_files_are_beside_the_package_or_inside_it():
    assert yamlfile.shipped_ids("profiles") == sorted(
        path.stem for path in pathlib.Path(yamlfile.shipped("profiles")).glob("*.yaml")
    )
    assert set(IDS) <= set(yamlfile.shipped_ids("profiles"))
