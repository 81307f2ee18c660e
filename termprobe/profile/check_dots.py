"""Checks of what a profile says of the dots of its characters."""

from termprobe.findings import Findings, nearest, quoted
from termprobe.profile.characters import CharacterSet, character_set, character_sets
from termprobe.profile.model import Profile
from termprobe.profile.vocabulary import BUS_LINES, SIZED_BUSES


def row_lines(drawn: CharacterSet) -> int:
    """Return how many lines tell the character generator which row of a drawing is wanted."""
    return (drawn.rows - 1).bit_length()


def bus_lines(profile: Profile) -> dict[str, int]:
    """Return the buses whose lines `profile` may label, and how many lines each has."""
    dots = profile.display.dots
    if dots is None or dots.characters not in character_sets():
        return dict(BUS_LINES)
    drawn = character_set(str(dots.characters))
    lines = row_lines(drawn), drawn.columns
    return BUS_LINES | dict(zip(SIZED_BUSES, lines, strict=True))


def check_dots(profile: Profile, findings: Findings) -> None:
    """Note a character set that there is none, and a box in which its drawings have no room."""
    dots = profile.display.dots
    if dots is None:
        return
    known = character_sets()
    if dots.characters not in known:
        must = f"characters must be one of {', '.join(known)}"
        near = nearest(dots.characters, known)
        findings.add(dots.characters, f"{must}, not {quoted(dots.characters)}{near}")
        return
    drawn = character_set(str(dots.characters))
    if dots.columns < drawn.columns:
        must = f"columns of the box must be {drawn.columns} or more"
        findings.add(dots.place.of("columns"), f"{must}, not {dots.columns}")
    if dots.lines < drawn.rows:
        must = f"lines of the box must be {drawn.rows} or more"
        findings.add(dots.place.of("lines"), f"{must}, not {dots.lines}")
