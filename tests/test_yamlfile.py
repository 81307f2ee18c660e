"""Strict YAML: records of typed fields; what is wrong hides nothing else and is never used."""

from dataclasses import dataclass, field
from typing import Literal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from helpers.examples import examples
from termprobe import yamlfile, yamlnodes
from termprobe.errors import FileError
from termprobe.findings import Place
from termprobe.yamlvalues import ByteText, Mapped, Template, Text


@dataclass(frozen=True)
class Part(Mapped):
    name: Text


@dataclass(frozen=True)
class Sample(Mapped):
    text: Text = Text("left out")
    number: int = 0
    share: float = 0.5
    flag: bool = False
    word: Literal["one", "two"] = "one"
    code: ByteText | Literal["none"] | None = None
    coding: Template | None = None
    numbers: tuple[int, ...] = ()
    parts: tuple[Part, ...] = ()
    part: Part | None = None
    labels: dict[Text, tuple[str, ...]] = field(default_factory=dict)
    with_: str | None = field(default=None, metadata={"key": "with"})


def sample(text, *checks):
    return yamlfile.build(text, "f", Sample, checks)


def findings_of(text, *checks):
    """Return the findings on the Sample in `text`, without the file's name."""
    with pytest.raises(FileError) as caught:
        sample(text, *checks)
    return [finding.removeprefix("f:") for finding in caught.value.findings]


@pytest.mark.parametrize(
    "text, name, value",
    [
        ("text: no", "text", "no"),
        ("text: 0777", "text", "0777"),
        ("text: 1:30", "text", "1:30"),
        ("text: null", "text", "null"),
        ("text: 2000-01-01", "text", "2000-01-01"),
        ("text: ''", "text", ""),
        ("text: 7E1", "text", "7E1"),
        ('text: "caf\\u00e9"', "text", "caf\u00e9"),
        ("number: 0017", "number", 17),
        ("number: -3", "number", -3),
        ("number: 1Bh", "number", 27),
        ("number: '5'", "number", 5),
        ("share: 2", "share", 2.0),
        ("share: -0.25", "share", -0.25),
        ("flag: yes", "flag", True),
        ("flag: no", "flag", False),
        ("word: two", "word", "two"),
        ("code: none", "code", "none"),
        ("code: ESC", "code", b"\x1b"),
        ("code:", "code", None),
        ("coding: ESC row", "coding", (b"\x1b", "row")),
        ("numbers: [1, 2]", "numbers", (1, 2)),
        ("with: x", "with_", "x"),
        ("parts: [{name: a}]", "parts", (Part("a"),)),
        ("part: {name: a}", "part", Part("a")),
        ("labels: {a: [b, c]}", "labels", {"a": ("b", "c")}),
        ("text: &anchor x", "text", "x"),
    ],
)
def test_a_value_is_what_its_field_says_and_never_what_it_looks_like(text, name, value):
    found = getattr(sample(text), name)
    assert found == value and isinstance(found, type(value))


@pytest.mark.parametrize(
    "text, finding",
    [
        (
            "number: 1_000",
            '1:9: number must be a whole number (decimal, or hexadecimal as 1Bh), not "1_000"',
        ),
        (
            "number: 0x1B",
            '1:9: number must be a whole number (decimal, or hexadecimal as 1Bh), not "0x1B"',
        ),
        (
            "number: 1.5",
            '1:9: number must be a whole number (decimal, or hexadecimal as 1Bh), not "1.5"',
        ),
        (
            "number: \u0663",
            '1:9: number must be a whole number (decimal, or hexadecimal as 1Bh), not "\u0663"',
        ),
        ("share: nan", '1:8: share must be a number, not "nan"'),
        ("share: 1e999", '1:8: share must be a number, not "1e999"'),
        ("flag: on", '1:7: flag must be yes or no, not "on"'),
        ("flag: true", '1:7: flag must be yes or no, not "true"'),
        ("word: tow", '1:7: word must be one of one, two, not "tow"; nearest is "two"'),
        ("word: [one]", "1:7: word must be one of one, two, not a list"),
        ("code: nome", "1:7: code: bytes must not hold a slot here, not 'nome'"),
        ("code: {a: b}", "1:7: code must be bytes in the notation, not a mapping"),
        ("text:", "1:6: text must be printable text, not nothing"),
        ('text: "\\e[2J"', '1:7: text must be printable text, not "\\x1b[2J"'),
        ("numbers: 5", '1:10: numbers must be a list, not "5"'),
        (
            "numbers: [1, x]",
            '1:14: numbers must be a whole number (decimal, or hexadecimal as 1Bh), not "x"',
        ),
        (
            "parts: [{nme: a}]",
            '1:10: a key of part must be one of name, not "nme"; nearest is "name"',
        ),
        ("parts: [{}]", '1:9: part must have the key "name"'),
        ("parts: [a]", '1:9: part must be a mapping, not "a"'),
        ("labels: [a]", "1:9: labels must be a mapping, not a list"),
        ("[a]", "1:1: sample must be a mapping, not a list"),
        ("? [a]\n: b", "1:3: a key must be one word, not a list or mapping"),
        ("text: a\ntext: b", '2:1: each key must stand once, not "text" again'),
        ("text: !!str a", "1:7: must be plain YAML, not the tag tag:yaml.org,2002:str"),
        ("text: a\n--- b", "2:1: must be one document, not a second one"),
        ("<<: {text: a}", "1:1: must be written out, not merged (<<) from another place"),
    ],
)
def test_one_mistake_gives_one_finding(text, finding):
    assert findings_of(text) == [finding]


def test_each_use_of_an_alias_has_its_own_finding_at_its_own_place():
    assert findings_of("text: &a x\nwith: *a\nnumbers: [*a]") == [
        "2:7: must be written out, not an alias (*name) of another place",
        "3:11: must be written out, not an alias (*name) of another place",
    ]


def test_findings_stand_in_file_order_whoever_made_them():
    def check(value, findings):
        findings.add(value.place.of("number"), "number is unlucky")

    assert [finding[:4] for finding in findings_of("flag: on\nnumber: 13\nword: x", check)] == [
        "1:7:",
        "2:9:",
        "3:7:",
    ]


def test_values_and_records_know_where_they_stood():
    value = sample("number: 1\ntext:  a\nparts:\n  - name: b\ncode: ESC\nlabels: {c: []}")
    assert (value.text.line, value.text.column) == (2, 8)
    assert (value.parts[0].name.line, value.parts[0].name.column) == (4, 11)
    assert (value.parts[0].place.line, value.parts[0].place.column) == (4, 5)
    assert (value.code.line, next(iter(value.labels)).column) == (5, 10)
    assert value.place.of("number") == Place(1, 9) and value.place.of("share") == Place(1, 1)


def test_what_is_wrong_is_unknown_to_the_checks_and_stops_only_those_that_use_it():
    seen = []

    def uses_number(value, _):
        seen.append("number read")
        seen.append(value.number + 1)

    def uses_text(value, findings):
        findings.add(value.text, "text is bad as well")

    assert [
        finding[:4] for finding in findings_of("number: x\ntext: a", uses_number, uses_text)
    ] == ["1:9:", "2:7:"]
    assert seen == ["number read"]


def test_find_takes_ids_and_paths():
    assert yamlfile.find("singlebyte-24x80", "profiles").name == "singlebyte-24x80.yaml"
    assert str(yamlfile.find("./here/x.yaml", "profiles")) == "here/x.yaml"
    assert str(yamlfile.find("x.yml", "profiles")) == "x.yml"
    must = "singlbyte-24x80: profile must be a path to a .yaml file or one of "
    with pytest.raises(FileError, match=must + '.*; nearest is "singlebyte-24x80"'):
        yamlfile.find("singlbyte-24x80", "profiles")


def test_a_mapping_may_hold_any_keys():
    found = yamlfile.build("a: b\nc: d", "f", dict[Text, Text])
    (first, _), (_, last) = found.items()
    assert found == {"a": "b", "c": "d"} and (first.line, last.column) == (1, 4)
    with pytest.raises(FileError, match="f:1:1: dict must be a mapping, not a list"):
        yamlfile.build("[a]", "f", dict[Text, Text])


TEXT = st.text(
    alphabet=st.sampled_from("abc:-[]{}'\"&*!|>%?#, \n\t\\ux0159hD\x1b\x85\u2028\ud800\U0001f600"),
    max_size=60,
)


@examples(300)
@given(text=st.one_of(st.text(max_size=60), TEXT), slow=st.booleans())
def test_any_text_gives_a_record_or_findings_with_either_parser(text, slow):
    loader = yamlnodes._LOADER
    yamlnodes._LOADER = yamlnodes.PlainLoader if slow else loader
    try:
        assert isinstance(sample(text), Sample)
    except FileError as error:
        assert error.findings and all(finding.startswith("f:") for finding in error.findings)
    finally:
        yamlnodes._LOADER = loader
