"""A few of the stories told by hand, as `explain` is asked; all are played by tests.builders."""

import json
import pathlib

import pytest

from termprobe.cli.main import main

FILE = pathlib.Path(__file__).parents[1] / "builders/told_stories.json"
STORIES = json.loads(FILE.read_text(encoding="utf-8"))
SINGLE = [one for one in STORIES if one["profile"] == "singlebyte-24x80"]
CHEAP = [one for one in SINGLE if one["told"][0] in ("--keys", "--noticed")]
ON_THE_SCREEN = ("bank-1-data/stuck/1/0",)


def likelier(capsys, story):
    """Return how many suspects are likelier than the class of the true fault; None without it."""
    main(["explain", "--profile", story["profile"], *story["told"], "--json"])
    suspects = json.loads(capsys.readouterr().out)["suspects"]
    own = [one["probability"] for one in suspects if story["fault"] in one["class"]]
    return sum(one["probability"] > own[0] for one in suspects) if own else None


@pytest.mark.parametrize("story", CHEAP, ids=[one["fault"] for one in CHEAP])
def test_keys_and_words(capsys, story):
    assert likelier(capsys, story) == story["likelier"]


@pytest.mark.parametrize("fault", ON_THE_SCREEN)
def test_a_text_with_a_slip_and_where(capsys, fault):
    (story,) = [one for one in STORIES if one["fault"] == fault]
    assert likelier(capsys, story) == 0


def test_there_are_stories_of_all_kinds():
    assert len(STORIES) >= 60 and {one["profile"] for one in STORIES} > {"club-16x64"}
    blocks = {one["fault"].split("/")[0] for one in STORIES}
    assert len(blocks) >= 20
