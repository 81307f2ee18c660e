"""Profiles are read strictly: every mistake has its finding, with its place, and no finding has no mistake."""

import pathlib
import re

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from termprobe import yamlfile
from termprobe.errors import FileError
from termprobe.profile import load
from termprobe.profile.model import Profile

IDS = ("ecma48-24x80", "singlebyte-24x80")
SHIPPED = {
    name: (yamlfile.shipped("profiles") / f"{name}.yaml").read_text(encoding="utf-8")
    for name in IDS
}

# Each mistake is followed by `#!` and a part of the finding that it must have.
TWENTY_MISTAKES = """\
id: twenty mistakes                     #! id must be small letters and digits joined by -, not "twenty mistakes"
title: A terminal with everything wrong
display:
  rows: 501                             #! rows must be 1 to 500, not 501
  columns: eighty                       #! columns must be a whole number (decimal, or hexadecimal as 1Bh), not "eighty"
  printing:
    first: 20h
    last: 7Eh
    last_column: next-rwo               #! last_column must be one of next-row, pending, overwrite, not "next-rwo"; nearest is "next-row"
    last_row: scroll
    sorce: the manual                   #! a key of printing must be one of first, last, last_column, last_row, source, not "sorce"; nearest is "source"
link:
  speed_baud: 9601                      #! speed_baud must be one of speeds_baud (300, 9600), not 9601
  speeds_baud: [300, 9600]
  data_bits: 7
  parity: even
  parity: odd                           #! each key must stand once, not "parity" again
  stop_bits: 1
  source: unverified
grammar: codes
fresh: [clear, hom]                     #! fresh must name commands of this profile, not "hom"; nearest is "home"
coordinates: {coding: offset, offset: 20h, source: ''} #! source must say where this comes from, or be the word unverified
options:
  - {name: duplex, positions: [full, half], normal: haf, meaning: shows its own keys} #! normal must be a position of duplex (full, half), not "haf"; nearest is "half"
commands:
  - {name: clear, bytes: SUB, action: claer, source: unverified} #! "claer"; nearest is "clear"
  - {name: home, bytes: RS, action: home, edge: stay, source: unverified} #! edge of home must be left out, not "stay"
  - {name: left, bytes: BS, action: left, source: unverified} #! left must have the key "edge", one of stay, wrap, previous-row
  - {name: left, bytes: VT, action: up, edge: stay, source: unverified} #! each command must stand once, not "left" again
  - {name: right, bytes: ESCAPE, action: right, edge: stay, source: unverified} #! a control character's name must be one of RFC 20's, not ESCAPE
  - {name: address, bytes: ESC "=" row, action: address, edge: keep, source: unverified} #! bytes of address must have the slot column
  - {name: bell, bytes: ESC "=" BEL, action: bell, source: unverified} #! bytes of bell must differ, from the start, from those of address
  - {name: shout, bytes: '"!"', action: bell, source: unverified} #! bytes of shout must not start with a printable code, 21h
keyboard:
  {pairing: bit, control: and-1Fh, letters: both-cases, repeat: none, rows: 1, columns: 2, diodes: no, source: unverified, keys: [
  {name: a, legend: A, row: 0, offset: 0, matrix: [0, 0], code: '"a"'},
  {name: b, legend: B, row: 0, offset: 1, matrix: [0, 0], code: '"b"'}, #! matrix of b must differ from that of a
  {name: c, legend: C, row: 0, offset: 2, matrix: [1, 0], code: '"c"'}, #! matrix of c must be a row of 0 to 0 and a column of 0 to 1, not 1, 0
  ]}
"""


def findings_of(text, name="p.yaml"):
    """Return the findings on the profile in `text`, none where it is good."""
    try:
        load.parse(text, name)
    except FileError as error:
        return error.findings
    return ()


def changed(old, new, profile="singlebyte-24x80"):
    """Return a shipped profile's text with its first `old` replaced."""
    assert old in SHIPPED[profile]
    return SHIPPED[profile].replace(old, new, 1)


def test_twenty_mistakes_give_twenty_findings_in_file_order():
    marked = [
        (number, line.split("#! ")[1])
        for number, line in enumerate(TWENTY_MISTAKES.split("\n"), 1)
        if "#! " in line
    ]
    found = findings_of(TWENTY_MISTAKES)
    assert len(marked) == 20
    assert [int(text.split(":")[1]) for text in found] == [number for number, _ in marked], (
        "\n".join(found)
    )
    for text, (_, part) in zip(found, marked, strict=True):
        assert part in text
        assert re.match(r"p\.yaml:\d+:\d+: ", text)


def test_a_finding_points_at_the_column_of_the_value():
    (found,) = findings_of(changed("  rows: 24", "  rows:   none"))
    line = SHIPPED["singlebyte-24x80"].split("\n").index("  rows: 24") + 1
    assert found.startswith(f"p.yaml:{line}:11: rows must be a whole number")


@pytest.mark.parametrize(
    "old, new, part",
    [
        ("id: singlebyte-24x80\n", "", 'profile must have the key "id"'),
        ("id: singlebyte-24x80", "id:", "id must be printable text, not nothing"),
        ("id: singlebyte-24x80", "id: [a]", "id must be printable text, not a list"),
        ("id: singlebyte-24x80", 'id: "\\e[2J"', "id must be printable text"),
        ("title: 24", "title: &t 24", None),
        ("fresh: [clear]", "fresh: []", "fresh must name the commands"),
        ("fresh: [clear]", "fresh: clear", 'fresh must be a list, not "clear"'),
        (
            "fresh: [clear]",
            "fresh: [address]",
            "fresh must name commands without a row or column, not address",
        ),
        ("fresh: [clear]", "fresh: [*x]", "must be written out, not an alias"),
        ("rows: 24", "rows: !!int 24", "must be plain YAML, not the tag tag:yaml.org,2002:int"),
        ("rows: 24", "rows: 0", "rows must be 1 to 500, not 0"),
        ("data_bits: 7", "data_bits: -7", "data_bits must be 5 to 8, not -7"),
        ("data_bits: 7", "data_bits: 999999999", "data_bits must be 5 to 8"),
        ("  last: 7Eh", "  last: FEh", "last must be a code of 20h (first) to 7Fh, not 254"),
        ("  stop_bits: 1", "  <<: {stop_bits: 1}\n  stop_bits: 1", "not merged (<<)"),
        (
            "  offset: 20h",
            "  offset: 60h",
            "coordinates must reach 79, the last column or row, in 7 data bits",
        ),
        ("coding: offset", "coding: bcd", "offset must be left out with the coding bcd"),
        (
            'bytes: ESC "=" row column',
            'bytes: ESC "=" row colum',
            'a slot of address must be row or column, not "colum"; nearest is "column"',
        ),
        (
            'bytes: ESC "=" row column',
            'bytes: ESC "=" row row',
            "each slot of address must stand once, not row again",
        ),
        ("bytes: BEL", 'bytes: ESC "b" row', "a slot of bell must be left out"),
        (
            'bytes: ESC "=" row column',
            "bytes: row column",
            "bytes of address must start with a code, not a slot",
        ),
        ("bytes: BEL", "bytes: ''", "bytes of bell must be 1 to 32"),
        ("bytes: BEL", "bytes: 07", "bytes must be written as names"),
        ("bytes: BEL", "bytes: 87h", "bytes of bell must fit in 7 data bits"),
        (
            "bytes: BEL",
            "bytes: BEL\n    also: [CR]",
            "bytes of return must differ, from the start, from those of bell",
        ),
        (
            "bytes: BEL",
            "bytes: BEL\n    reply: ESC",
            "reply of bell must be left out: its action is bell",
        ),
        ("action: bell", "action: reply", 'bell must have the key "reply"'),
        (
            "bytes: BEL",
            "bytes: BEL\n    fill: {code: '', count: 1, from_baud: 300}",
            "code must be one byte, not 0",
        ),
        ("bytes: BEL", "bytes: BEL\n    settle_ms: -1", "settle_ms must be 0 to 60000, not -1"),
        (
            "    positions: [full, half]",
            "    positions: [full, full]",
            "positions of duplex must be two or more different words",
        ),
        (
            "  - name: duplex",
            "  - {name: line, positions: [a, b], normal: a, meaning: x}\n  - name: duplex",
            "each option must stand once",
        ),
        ("{name: tab,", "{name: escape,", 'each key must stand once, not "escape" again'),
        (
            "legend: TAB, row: 1, offset: 0, width: 1.25",
            "legend: TAB, row: 1, offset: 0, width: 1.5",
            "offset of q must be at least 1.5, where tab ends, not 1.25",
        ),
        (
            "matrix: [2, 0], code: HT",
            "matrix: [2], code: HT",
            "matrix of tab must be a row and a column",
        ),
        ("matrix: [2, 0], code: HT", "matrix: [2, 0]", 'tab must have the key "code"'),
        (
            "matrix: [2, 0], code: HT",
            "matrix: [2, 0], code: ''",
            "code of tab must be one byte or more of 7 data bits",
        ),
        (
            "role: break}",
            "role: break, code: NUL}",
            "code of break must be left out: its role is break",
        ),
        ("role: repeat}", "role: local}", "repeat must not be key: no key has the role repeat"),
        (
            "echo_option: duplex",
            "echo_option: duplx",
            'echo_option must be an option of this profile, not "duplx"; nearest is "duplex"',
        ),
        (
            "echo_position: half",
            "echo_position: hlf",
            "echo_position must be a position of duplex (full, half)",
        ),
        (
            "echo_option: duplex",
            "labels: {bank-0-data: [U1]}\n  echo_option: duplex",
            "labels of bank-0-data must be 7, line 0 first, not 1",
        ),
        (
            "echo_option: duplex",
            "labels: {bank-0-dat: [U1]}\n  echo_option: duplex",
            'nearest is "bank-0-data"',
        ),
        (
            "coordinates:\n  coding: offset\n  offset: 20h\n  source: terminfo capability cup in every entry of the family\n",
            "",
            'must have the key "coordinates"',
        ),
    ],
)
def test_one_mistake_gives_one_finding(old, new, part):
    found = findings_of(changed(old, new))
    if part is None:
        assert not found
    else:
        assert len(found) == 1, "\n".join(found)
        assert part in found[0]


@pytest.mark.parametrize(
    "old, new, part",
    [
        (
            'bytes: ESC "[0J"',
            'bytes: ESC "[" count "J"',
            "a slot of erase-to-end-of-display must be left out",
        ),
        (
            'bytes: ESC "[" count "A"',
            'bytes: ESC "[" count "B"',
            "bytes of down must differ, from the start, from those of up",
        ),
        (
            'bytes: ESC "[" count "A"',
            'bytes: ESC "[" count "0"',
            "a slot of up must be followed by something other than a digit",
        ),
        (
            'bytes: ESC "[1m"',
            'bytes: ESC "[0m"',
            "bytes of bold must differ, from the start, from those of plain",
        ),
        ('bytes: ESC "D"', 'bytes: ESC "["', "bytes of index must be one control sequence"),
        (
            'bytes: ESC "[" count "A"',
            'bytes: ESC "[x" count "A"',
            "bytes of up must be one control sequence",
        ),
        (
            'bytes: ESC "[" count "A"',
            'bytes: ESC "#" count',
            "a slot of up must be followed by something other than a digit",
        ),
        (
            "coding: decimal\n  first: 1",
            "coding: binary\n  first: 1",
            "coding must be decimal, for the control sequence of up",
        ),
        (
            "coordinates:\n  coding: decimal\n  first: 1\n  source: ECMA-48 5.4.2 (decimal digits) and 6.1.1 (lines and positions count from 1)\n",
            "",
            'a slot of address must be explained: the profile must have the key "coordinates"',
        ),
        (
            'reply: ESC "[" row ";" column "R"',
            'reply: ESC "[" count "R"',
            'a slot of report-cursor must be row or column, not "count"',
        ),
    ],
)
def test_one_mistake_in_control_sequences_gives_one_finding(old, new, part):
    found = findings_of(changed(old, new, "ecma48-24x80"))
    assert found and part in found[0], "\n".join(found)


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


@settings(max_examples=60, deadline=None)
@given(data=st.binary(max_size=300))
def test_any_bytes_as_a_file_give_a_profile_or_findings(tmp_path_factory, data):
    path = tmp_path_factory.getbasetemp() / "any.yaml"
    path.write_bytes(data)
    try:
        assert isinstance(load.load(str(path)), Profile)
    except FileError as error:
        assert error.findings


@settings(max_examples=150, deadline=None)
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
