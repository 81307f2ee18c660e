"""Findings, and values that are unknown to the checks."""

import operator
from types import SimpleNamespace

import pytest

from termprobe.errors import FileError
from termprobe.findings import (
    MAX_SHOWN,
    UNKNOWN,
    Findings,
    Place,
    UnknownValueError,
    called,
    forget,
    nearest,
    nearest_word,
    quoted,
    try_check,
)


def raised(findings):
    """Return the findings as the error holds them."""
    with pytest.raises(FileError) as caught:
        findings.refuse()
    return caught.value.findings


def test_no_findings_are_no_error():
    Findings("f").refuse()


def test_findings_are_raised_in_the_order_of_the_file():
    findings = Findings("f")
    for line, column in ((2, 1), (1, 9), (10, 1), (1, 1)):
        findings.add(Place(line, column), "x")
    assert raised(findings) == ("f:1:1: x", "f:1:9: x", "f:2:1: x", "f:10:1: x")


@pytest.mark.parametrize("count", [1, MAX_SHOWN, MAX_SHOWN + 1, MAX_SHOWN + 150])
def test_no_more_than_a_hundred_findings_are_listed(count):
    findings = Findings("f")
    for line in range(1, count + 1):
        findings.add(Place(line, 1), "x")
    found = raised(findings)
    listed = [finding for finding in found if finding.endswith(": x")]
    assert len(listed) == min(count, MAX_SHOWN)
    assert found[len(listed) :] == (f"f: and {count - MAX_SHOWN} more",) * (count > MAX_SHOWN)


def test_a_place_knows_those_of_its_fields():
    place = Place(3, 1, {"name": Place(4, 7)})
    assert place.of("name") == Place(4, 7)
    assert place.of("left-out") == place == Place(3, 1)


@pytest.mark.parametrize(
    "use",
    [
        bool,
        str,
        hash,
        iter,
        len,
        int,
        float,
        list,
        lambda x: x == 1,
        lambda x: x != 1,
        lambda x: x < 1,
        lambda x: operator.gt(1, x),
        lambda x: x.name,
        lambda x: x[0],
        lambda x: 1 in x,
        lambda x: x in [1],
        lambda x: 1 + x,
        lambda x: 1 << x,
        lambda x: f"{x}",
        lambda x: {x},
        lambda x: max([x, 1]),
    ],
)
def test_an_unknown_value_cannot_be_used(use):
    with pytest.raises(UnknownValueError):
        use(UNKNOWN)


def test_a_check_ends_where_it_meets_what_is_unknown():
    record = SimpleNamespace(name="a", size=1)
    findings = Findings("f")

    def check(what):
        findings.add(Place(1, 1), "before")
        findings.add(Place(1, 1), f"{what} of {record.name} is {record.size}")

    forget(record, "size")
    try_check(check, "size")
    assert [finding.text for finding in findings] == ["f:1:1: before"]


def test_a_record_without_a_name_is_called_by_a_word():
    record = SimpleNamespace(name="a")
    assert called(record, "the part") == "a"
    forget(record, "name")
    assert called(record, "the part") == "the part"


def test_the_nearest_word_is_named_where_one_is_near():
    assert nearest("bel", ["bell", "left"]) == '; nearest is "bell"'
    assert nearest("quite other", ["bell"]) == ""
    assert nearest_word("quite other", ["bell"]) is None
    assert nearest_word("x" * 10_000, ["x" * 60]) == "x" * 60


@pytest.mark.parametrize(
    ("text", "shown"),
    [
        ("plain", '"plain"'),
        ("\x1b", '"\\x1b"'),
        ("x" * 60, '"' + "x" * 60 + '"'),
        ("x" * 61, '"' + "x" * 57 + '..."'),
    ],
)
def test_what_is_quoted_is_harmless_and_short(text, shown):
    assert quoted(text) == shown
