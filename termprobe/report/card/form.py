"""The empty form of a card, to be typed into."""

from collections.abc import Iterator, Sequence

from termprobe.notation import visible
from termprobe.report.card.facts import Card, CardStage

HOW_TO_TYPE = """\
# Type in what was written on the card. A line that begins with # is a remark.
# Behind a number stands one of these, and a remark behind it if you like:
#   3: ok
#   3: differs  row 5 is blank
#   3: not tried  no scope at hand
#   3: unsure            3: disputed  the drawing is wrong, and why
# What a screen shows at row 5 from column 10 on, or in the whole of row 6:
#   3: seen 5,10 HEMMO   3: seen 6 "HELLO  WORLD"
# A reading: V1: 4.95 V             another code than the right one: K7: came 42h
# Several at once: K1-K40: ok       something beside the answer: 3: note  it flickers
# What is left empty was not answered."""
PLACES = ("board", "revision", "builder", "batch", "fitted", "date", "note")
"""What is told of the board and the day."""


def card_form(card: Card, profile: str, script: str, stages: Sequence[str] = ()) -> str:
    """Return the form; `profile` and `script` are what the user calls them, as `stages` are."""
    return "\n".join(_lines(card, profile, script, stages)) + "\n"


def _lines(card: Card, profile: str, script: str, stages: Sequence[str]) -> Iterator[str]:
    yield HOW_TO_TYPE
    yield ""
    yield f"profile: {profile}"
    yield f"script: {script}"
    if stages:
        yield f"stages: {', '.join(stages)}"
    yield f"plan: {card.plan}"
    yield ""
    yield "# The date as 2026-07-03, or with a time as 2026-07-03 18:45."
    for place in PLACES:
        yield f"{place}:"
    for stage in card.stages:
        yield from _stage(stage)


def _stage(stage: CardStage) -> Iterator[str]:
    yield from ("", f"# {visible(stage.title)}")
    for step in stage.steps:
        yield f"# {visible(step.title)}"
        yield f"{step.number}:"
    for key in stage.keys:
        yield f"# {visible(key.pressed)} sends {visible(key.sends)}"
        yield f"{key.number}:"
