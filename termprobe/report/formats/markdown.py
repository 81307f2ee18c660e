"""Runs as Markdown, for a wiki or a repository: whatever came from elsewhere is escaped."""

import re
from collections.abc import Iterator, Sequence

from termprobe.notation import visible
from termprobe.report.facts.blocks import blocks_in_words
from termprobe.report.facts.first_page import FirstPage
from termprobe.report.facts.sheet import Sheet, sheet
from termprobe.report.facts.stages import StageFacts
from termprobe.report.facts.steps import StepFacts
from termprobe.report.facts.suspects import SuspectsFacts
from termprobe.report.facts.tones import BAD
from termprobe.report.record import RunReport
from termprobe.report.text_screens import screen_lines

_INLINE = re.compile(r"([\\`*_\[\]<>|~&$@#]|:(?=//)|(?<=www)\.)")
"""What could act anywhere in a line."""
_AT_START = re.compile(r"^(\d{1,9}(?=[.)](?:\s|$))|(?=[-+](?:\s|$)|=|--))")
"""What could act where a line begins."""
NAMED = 8


def render(reports: Sequence[RunReport]) -> str:
    """Return the reports one after another."""
    return "\n".join("\n".join(_run(sheet(report))) + "\n" for report in reports)


def escaped(text: str) -> str:
    """Return `text` as Markdown that shows just it, in one line."""
    inline = _INLINE.sub(r"\\\1", visible(text).strip(" "))
    return _AT_START.sub(r"\1\\", inline)


def fenced(lines: Sequence[str]) -> list[str]:
    """Return lines as they are, in a block that nothing in them can end."""
    shown = [visible(line) for line in lines]
    ticks = max((len(run) for line in shown for run in re.findall("`+", line)), default=0)
    fence = "`" * max(3, ticks + 1)
    return [fence + "text", *shown, fence]


def _run(told: Sheet) -> Iterator[str]:
    yield from _first_page(told.first)
    yield from _section("Known fault, with which the run went on", told.known_faults)
    yield from _section("What has changed", told.changes)
    for found in told.suspects:
        yield from _suspects(found)
    blocks = list(blocks_in_words(told.blocks))
    yield from _section("Modelled faults that a step that passed would have shown", blocks)
    yield from _readings(told)
    if told.keyboard is not None:
        yield from ("", "## Keyboard", "", *fenced(told.keyboard.drawn))
    yield from ("", "## Stage by stage")
    for stage in told.stages:
        yield from _stage(stage)
    notes = [": ".join(filter(None, (one.time, one.step, one.told))) for one in told.notes]
    yield from _section("Noted during the run", [*notes, *filter(None, [told.checks])])
    yield from _about(told)


def _section(heading: str, texts: Sequence[str]) -> Iterator[str]:
    """Yield a heading and a list below it; nothing where the list is empty."""
    if texts:
        yield from ("", f"## {heading}", "")
        yield from (f"- {escaped(text)}" for text in texts)


def _first_page(first: FirstPage) -> Iterator[str]:
    yield f"# {escaped(first.word)}: {escaped(first.told)}"
    yield ""
    for text in first.limits:
        yield f"**{escaped(text)}**"
        yield ""
    yield from _table(("", ""), [*first.identity, ("Totals", first.totals)])
    if first.causes:
        yield from ("", "## What failed", "")
    for number, cause in enumerate(first.causes, 1):
        share = f" {escaped(f'({cause.percent})')}" if cause.percent else ""
        told = f"{number}. **{escaped(cause.title)}**{share}: {cause.count} failed by it."
        if cause.probe:
            told += f" Probe {escaped(cause.probe)}."
        yield f"{told} Next: {escaped(cause.next)}."
    claims = [one.sentence for one in first.claims]
    yield from _section("What this run shows, by the steps that passed", claims)
    untried = [f"{name}: {text}" if name else text for name, text in first.not_tried]
    yield from _section("What was not tried", [*untried, *filter(None, [first.not_there])])


def _table(heads: Sequence[str], rows: Sequence[Sequence[str]]) -> Iterator[str]:
    yield f"| {' | '.join(heads)} |"
    yield f"|{'---|' * len(heads)}"
    for row in rows:
        yield f"| {' | '.join(map(escaped, row))} |"


def _suspects(found: SuspectsFacts) -> Iterator[str]:
    told = [f"{found.note}."] if found.note else []
    for one in found.suspects:
        told.append(f"{one.title}, {one.percent} %; {one.block}: {', '.join(one.faults)}")
    told += [f"Two faults together: {pair}" for pair in found.pairs]
    told += found.probes
    told += [f"What would tell most next: {title}" for title in found.next]
    yield from _section(f"Suspects of {found.what}", told)


def _readings(told: Sheet) -> Iterator[str]:
    if not told.readings:
        return
    yield from ("", "## Readings", "")
    rows = [
        (one.title, one.verdict, one.reading, one.limits, one.source, one.re_answered)
        for one in told.readings
    ]
    yield from _table(("What", "Verdict", "Reading", "Limits", "From", "Readings before"), rows)


def _stage(stage: StageFacts) -> Iterator[str]:
    yield from ("", f"### {escaped(stage.title)}", "", f"{escaped(stage.totals)}.", "")
    if stage.right_presses:
        yield f"- pass: {stage.right_presses} presses, each with its code"
    covered = [step.title for step in stage.steps if step.is_covered]
    if covered:
        yield f"- pass: {len(covered)} by others that passed: {escaped('; '.join(covered))}"
    told_above = stage.explained_presses + len(stage.explained)
    if told_above:
        yield f"- **FAIL**: {told_above} more by a cause that is told above"
    for step in stage.steps:
        if step.id not in stage.explained and not step.is_covered:
            yield from _step(step)


def _step(step: StepFacts) -> Iterator[str]:
    word = "**FAIL**" if step.tone == BAD else escaped(step.verdict)
    told = ": ".join(filter(None, (step.title, step.reason)))
    beside = f" ({step.re_answered})" if step.re_answered else ""
    yield f"- {word}: {escaped(told + beside)}"
    if step.tone == BAD:
        for text in (*step.evidence, *step.cells):
            yield f"  - {escaped(text)}"
        for group in step.sent[:NAMED]:
            yield f"  - sent {escaped(f'{group.what} {group.bytes}'.strip())}"
    for note in step.notes:
        yield f"  - noted {escaped(f'{note.time}: {note.told}')}"
    if step.tone == BAD and step.screen is not None:
        rows = screen_lines(step.screen, "")
        if rows:
            yield from ("", *(f"  {line}" for line in fenced(rows)), "")


def _about(told: Sheet) -> Iterator[str]:
    about = told.about
    unverified = ", ".join(about.unverified) or "nothing of the profile"
    texts = [about.model, f"Without a source: {unverified}", f"Plan {about.plan_hash}"]
    texts += (*about.texts, *about.remarks, *about.damages)
    texts += [f"Caution: {text} ({', '.join(where)})" for text, where in about.cautions]
    yield from _section("What limits this report", texts)
