"""The sections of a report beside its stages, as lines of plain text. Pure."""

from collections.abc import Iterator, Sequence

from termprobe.folding import folded
from termprobe.report.facts.about import AboutFacts
from termprobe.report.facts.blocks import blocks_in_words
from termprobe.report.facts.cause_lines import CauseLine
from termprobe.report.facts.first_page import FirstPage
from termprobe.report.facts.sheet import Sheet
from termprobe.report.facts.suspects import THE_BOARD, THE_KEYBOARD, SuspectsFacts

WIDTH = 80
NAMED = 6
"""Titles of steps that are named of many."""


def under(heading: str, lines: Sequence[str]) -> list[str]:
    """Return `lines` below their heading, behind an empty line; nothing where there are none."""
    return ["", heading, *lines] if lines else []


def first_page_lines(first: FirstPage) -> list[str]:
    """Return the verdict, how far it goes, and whose and when it is."""
    lines = folded("", f"{first.word}: {first.told}", WIDTH)
    for text in first.limits:
        lines += folded("", text, WIDTH)
    lines.append("")
    for name, text in first.identity:
        lines += folded(f"{name:<13}", text, WIDTH)
    lines += folded(f"{'Totals':<13}", first.totals, WIDTH)
    lines += under("What failed", _causes(first.causes))
    lines += under("What this run shows, by the steps that passed", _claims(first))
    return lines + under("What was not tried", list(_not_tried(first)))


def _causes(causes: Sequence[CauseLine]) -> list[str]:
    lines: list[str] = []
    for number, cause in enumerate(causes, 1):
        lines += folded(f"  {number}  ", cause.told, WIDTH)
    return lines


def _claims(first: FirstPage) -> list[str]:
    return [line for one in first.claims for line in folded("  ", one.sentence, WIDTH, 4)]


def _not_tried(first: FirstPage) -> Iterator[str]:
    for name, text in first.not_tried:
        yield from folded("  ", f"{name}: {text}" if name else text, WIDTH, 4)
    if first.not_there:
        yield from folded("  ", first.not_there, WIDTH, 4)


def suspect_lines(found: SuspectsFacts) -> list[str]:
    """Return what would explain a run, by looks or by keys."""
    lines: list[str] = []
    if found.note:
        lines += folded("  ", f"{found.note}.", WIDTH)
    for one in found.suspects:
        lines += folded(f"  {one.percent:>3} %  ", f"{one.title}; {one.block}", WIDTH)
        lines += folded("         ", ", ".join(one.faults), WIDTH)
        for word, titles in (("for", one.supports), ("against", one.contradicts)):
            if titles:
                lines += folded(f"         {word}: ", _first(titles), WIDTH)
    for pair in found.pairs:
        lines += folded("  ", f"Two faults together: {pair}", WIDTH, 4)
    if len(found.blocks) > 1:
        lines += folded("  Blocks: ", ", ".join(found.blocks), WIDTH)
    for text in found.probes:
        lines += folded("  ", text, WIDTH)
    if found.next:
        lines += folded("  What would tell most next: ", "; ".join(found.next), WIDTH, 4)
    return lines


def _first(titles: Sequence[str]) -> str:
    """Return the first titles, in which there may be commas, and how many more there are."""
    told = "; ".join(titles[:NAMED])
    left_out = len(titles) - NAMED
    return f"{told} and {left_out} more" if left_out > 0 else told


def middle_lines(sheet: Sheet) -> list[str]:
    """Return known faults, changes, suspects of the board, coverage, readings."""
    faults = [line for text in sheet.known_faults for line in folded("  ", text, WIDTH)]
    lines = under("Known fault, with which the run went on", faults)
    if sheet.changes:
        since, *changes = sheet.changes
        changed = [line for text in changes for line in folded("  ", text, WIDTH, 4)]
        lines += under(folded("", since, WIDTH)[0], changed)
    lines += _suspects(sheet, THE_BOARD)
    proven = blocks_in_words(sheet.blocks)
    blocks = [line for text in proven for line in folded("  ", text, WIDTH, 4)]
    lines += under("Modelled faults that a step that passed would have shown", blocks)
    readings: list[str] = []
    for one in sheet.readings:
        told = f"{one.title}: {one.reading}; limits {one.limits}"
        told += f"; {one.re_answered}" if one.re_answered else ""
        readings += folded(f"  {one.verdict:<13}", told, WIDTH)
    return lines + under("Readings", readings)


def _suspects(sheet: Sheet, what: str) -> list[str]:
    found = (one for one in sheet.suspects if one.what == what)
    return [line for one in found for line in under(f"Suspects of {what}", suspect_lines(one))]


def last_lines(sheet: Sheet) -> list[str]:
    """Return what was noted, what limits the report, and last the keyboard with its suspects."""
    notes: list[str] = []
    for note in sheet.notes:
        at_step = f"at {note.step}: " if note.step else ""
        notes += folded(f"  {note.time}  ", f"{at_step}{note.told}", WIDTH, 4)
    lines = under("Noted during the run", notes)
    if sheet.checks:
        lines += ["", *folded("", sheet.checks, WIDTH)]
    texts = [line for text in sheet.about.texts for line in folded("  ", text, WIDTH, 4)]
    lines += under("Texts of profile and script", texts)
    lines += under("What limits this report", list(_about(sheet.about)))
    if sheet.keyboard is not None:
        lines += ["", *sheet.keyboard.drawn]
        if sheet.keyboard.no_chords:
            lines += ["", *folded("Chords: ", sheet.keyboard.no_chords, WIDTH)]
    return lines + _suspects(sheet, THE_KEYBOARD)


def _about(about: AboutFacts) -> Iterator[str]:
    unverified = ", ".join(about.unverified) or "nothing of the profile"
    told = [("Model", about.model), ("Without a source", unverified), ("Plan", about.plan_hash)]
    told += [("Remark", text) for text in about.remarks]
    told += [("Damage", text) for text in about.damages]
    for name, text in told:
        yield from folded(f"  {name}: ", text, WIDTH, 4)
    for text, where in about.cautions:
        yield from folded("  Caution: ", f"{text} ({', '.join(where)})", WIDTH, 4)
