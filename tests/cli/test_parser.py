"""The parser of the command line: what may have been meant by a word that is none."""

import contextlib

import pytest

from termprobe.cli.main import COMMANDS, main

WITH_ACTIONS = {"profile": ("show", "check"), "script": ("list", "show", "check")}
NO_LONG_OPTION = {"profile check", "profile list", "script list"}


def complaint(capsys, *words):
    with contextlib.suppress(SystemExit):
        assert main(list(words)) == 2
    return capsys.readouterr().err.split("error: ")[1]


def calls():
    """Return the words of each command, and of each of its actions."""
    for command in COMMANDS:
        yield from ((command, *action.split()) for action in WITH_ACTIONS.get(command, ("",)))


def first_option(capsys, words):
    """Return the first long option of a command, as its help names it."""
    main([*words, "--help"])
    lines = capsys.readouterr().out.split("\n")
    options = [line.split()[0] for line in lines if line.startswith("  --")]
    return next(iter(options), "")


@pytest.mark.parametrize("words", list(calls()), ids=" ".join)
def test_every_command_names_the_nearest_option(capsys, words):
    option = first_option(capsys, words).rstrip(",")
    assert bool(option) == (" ".join(words) not in NO_LONG_OPTION)
    if option:
        mistyped = f"--x{option[2:]}"
        said = complaint(capsys, *words, mistyped)
        assert f'; for {mistyped} nearest is "{option}"' in said


@pytest.mark.parametrize(
    "words, told",
    [
        (("card", "--profile=x", "--scrpt=quick"), '; for --scrpt nearest is "--script"'),
        (("coverage", "--profile", "x", "--scrpt", "y"), "are required: --script; for --scrpt"),
        (("crad",), 'not "crad"; nearest is "card"'),
        (("profile", "shw"), 'must be one of list, show, check, not "shw"; nearest is "show"'),
        (("card", "--format", "htm"), 'html, form, not "htm"; nearest is "html"'),
        (("--versoin",), 'required: COMMAND; for --versoin nearest is "--version"'),
    ],
)
def test_the_nearest_word_is_named(capsys, words, told):
    assert told in complaint(capsys, *words)


def test_no_nearest_is_made_up(capsys):
    assert "nearest" not in complaint(capsys, "ports", "--profile", "x")
    assert "nearest" not in complaint(capsys, "crab-cakes", "--versoin")
    assert "nearest" not in complaint(capsys, "diagnose", "a", "b", "--", "--jsn")
