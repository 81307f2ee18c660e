"""`termprobe explain`: a symptom in words, as a page and as a document."""

import json

import pytest

from termprobe.cli.main import main

PROFILE = ("explain", "--profile", "singlebyte-24x80")


def document(capsys, *words):
    code = main([*PROFILE, *words, "--json"])
    return code, json.loads(capsys.readouterr().out)


def test_a_text_and_where(capsys):
    words = ("--sent", "ABCDEFGH", "--seen", "CBCFGFGJ")
    code, found = document(capsys, *words, "--where", "odd rows")
    assert (code, found["verdict"], found["explained"]) == (1, "fail", True)
    assert "bank-1-data/stuck/1/1" in found["suspects"][0]["class"]
    assert found["blocks"][0]["block"] == "bank-1-data"
    _, found = document(capsys, *words)
    assert found["explained"] and len({one["block"] for one in found["blocks"]}) > 1


def test_bytes_in_the_notation_and_keys(capsys):
    _, found = document(capsys, "--sent", '"ABC" BS "-"', "--seen", "ABC-")
    assert found["explained"] and "decoder/dead/left" in found["suspects"][0]["class"]
    _, found = document(capsys, "--keys", "1>9 Q>Y A>I 42h>4Ah")
    assert "keyboard-code/stuck/3/1" in found["suspects"][0]["class"] and found["next"] is None


def test_the_page(capsys):
    assert main([*PROFILE, "--sent", " A", "--seen", " A"]) == 0
    assert capsys.readouterr().out.startswith("Nothing to explain")
    assert main([*PROFILE, "--sent", " ABD", "--seen", "!ACE"]) == 1
    assert "is stuck at 1" in capsys.readouterr().out


@pytest.mark.parametrize(
    "words, complaint",
    [
        ((), "must be told --sent and --seen, --where, --drawn, --noticed or --keys"),
        (("--sent", "A"), "must come in pairs, not 1 of one and 0 of the other"),
        (("--where", "somewhere"), '--where must be words such as "odd rows", "right half"'),
        (("--where", "odd rws"), '; nearest is "odd rows"; `termprobe explain --words`'),
        (("--noticed", "flikering"), '; nearest is "flickering"'),
        (("--keys", "AC"), "--keys must be words such as A>C or CR>LF"),
        (("--sent", "é", "--seen", "A"), "TEXT must be plain ASCII, or bytes"),
    ],
)
def test_what_cannot_be_read_is_refused(capsys, words, complaint):
    assert main([*PROFILE, *words]) == 2
    assert complaint in capsys.readouterr().err


def test_what_is_not_modelled_is_told_and_beside_it_what_is(capsys):
    code, found = document(capsys, "--noticed", "rolling picture")
    assert (code, found["explained"], found["suspects"]) == (1, False, [])
    assert found["not_modelled"][0]["name"] == "rolling picture"
    told = ("--noticed", "dim", "--noticed", "cursor missing")
    _, both = document(capsys, *told)
    assert (
        "cursor/dead" in both["suspects"][0]["class"] and both["not_modelled"][0]["name"] == "dim"
    )
    assert main([*PROFILE, "--noticed", "rolling picture"]) == 1
    assert "Look first" not in (said := capsys.readouterr().out) and "1. the vertical sync" in said


def test_a_fault_that_explains_nothing_of_a_text_does_not_explain_it(capsys):
    """One letter too many is a slip of the pen for many faults, as it is for a good board."""
    told = ("--sent", "HELLO", "--seen", "HELLOO")
    _, found = document(capsys, *told)
    assert not found["explained"] and found["suspects"]
    main([*PROFILE, *told])
    assert "would show just this" not in capsys.readouterr().out


def test_letters_that_come_twice_are_of_the_echo_or_the_keys(capsys):
    code, found = document(capsys, "--sent", "HELLO", "--seen", "HHEELLLLOO")
    assert (code, found["explained"], found["suspects"]) == (1, False, [])
    assert found["not_modelled"][0]["name"] == "doubled letters"
