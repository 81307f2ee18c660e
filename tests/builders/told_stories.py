"""Stories written down by hand, each of a board with one fault: is the true cause named first?

They stand in told_stories.json. What was seen is what a simulated board with the fault shows, as a
tired builder would write it; `likelier` is how many suspects are likelier than the true class.
"""

import json
import pathlib

from . import tables
from .stories import Story, explained, rank

FILE = pathlib.Path(__file__).with_name("told_stories.json")


def stories():
    """Return (story, how many suspects are known to be likelier) of each."""
    rows = json.loads(FILE.read_text(encoding="utf-8"))
    return [
        (Story(row["profile"], row["fault"], tuple(row["told"])), row["likelier"]) for row in rows
    ]


def play(_request):
    tables.heading("Stories written by hand", "no class likelier than the true one", "at most two")
    ranks = {story: rank(explained(story), story.fault) for story, _ in stories()}
    first = sum(likelier == 0 for likelier in ranks.values())
    three = sum(0 <= likelier < 3 for likelier in ranks.values())
    tables.row(tables.share(first, len(ranks)), tables.share(three, len(ranks)))
    lost = [story for story, likelier in ranks.items() if likelier]
    tables.names([" ".join((one.fault, *map(repr, one.told))) for one in lost])
