"""The errata sheet to publish with bare boards: what is of the layout, and nobody's name. Pure.

It names no builder and no board: whoever soldered badly has made no mistake in the layout.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from termprobe.errata.batch import Batch
from termprobe.errata.groups import BATCH, BUILDER
from termprobe.errata.items import BatchItem
from termprobe.errata.origin import OF_LAYOUT, ONE_BOARD, OPEN, BatchFinding, BatchFindings
from termprobe.errata.remedies import Remedy
from termprobe.errata.words import from_cards_in_words, revisions_of, wording
from termprobe.report.facts.numbers import listed
from termprobe.yamlvalues import Text

STEPS_NAMED = 6
NO_REMEDY = "not written yet"
NOT_SEEN = "not seen on any board of these runs; kept from earlier sheets"
NOT_OF_LAYOUT = "seen in these runs, but no longer found to go with the layout; kept"
PRACTICE_SHEET = (
    "PRACTICE: made from simulated boards. It says nothing of real ones and is not to be published."
)
MIXED_SHEET = "Runs of simulated boards count in this sheet. It is not to be published."
UNSETTLED = "seen on {} of {} boards tried; too few to say whether it is the layout"


@dataclass(frozen=True)
class SheetItem:
    """One item of the sheet."""

    what: str
    title: str
    symptom: str
    revisions: str
    cause: str
    remedy: str
    check: str
    evidence: str
    """What the numbers say, or that it was not seen."""
    is_seen: bool = True
    mended_in: str = ""


@dataclass(frozen=True)
class ErrataSheet:
    """The sheet."""

    title: str
    warning: str
    """That it is not to be published; empty where it may be."""
    boards: int
    revisions: tuple[str, ...]
    items: tuple[SheetItem, ...]
    unsettled: tuple[str, ...]
    """What may be of the layout, a sentence each."""
    others: tuple[str, ...]
    """How much was found that is not of the layout, a sentence each."""
    small_print: str = ""
    """How many runs were filled in from cards, a sentence; empty where none was."""

    @property
    def without_remedy(self) -> tuple[SheetItem, ...]:
        """The items for which nobody has written a remedy."""
        return tuple(item for item in self.items if item.remedy == NO_REMEDY)


def sheet_of(batch: Batch, findings: BatchFindings, remedies: Sequence[Remedy] = ()) -> ErrataSheet:
    """Return the sheet of a batch, with the designer's words where there are any."""
    of_layout = [one for one in findings.found if _is_of_layout(one)]
    items = [_item(one, batch, _remedy_for(one.item, remedies)) for one in of_layout]
    used = {name for one in of_layout for name in _names(one.item)}
    seen = {name for one in findings.found for name in _names(one.item)}
    items += [_kept(entry, entry.what in seen) for entry in remedies if entry.what not in used]
    revisions = tuple(dict.fromkeys(one.board.revision or "not told" for one in batch.boards))
    return ErrataSheet(
        "Errata",
        _warning(batch),
        len(batch.boards),
        revisions,
        tuple(items),
        tuple(_unsettled(findings, batch)),
        tuple(_others(findings)),
        from_cards_in_words(batch),
    )


def _warning(batch: Batch) -> str:
    if batch.is_practice:
        return PRACTICE_SHEET
    return MIXED_SHEET if batch.with_practice else ""


def _is_of_layout(finding: BatchFinding) -> bool:
    """Return whether a finding goes with revisions, or is on every board of several."""
    return finding.origin == OF_LAYOUT or (finding.origin == OPEN and finding.is_everywhere)


def _names(item: BatchItem) -> tuple[str, ...]:
    return item.what, *item.alike


def _remedy_for(item: BatchItem, remedies: Sequence[Remedy]) -> Remedy:
    """Return the entry for an item; one without words where there is none."""
    names = _names(item)
    found = (entry for name in names for entry in remedies if entry.what == name)
    return next(found, Remedy(Text(item.what)))


def _item(finding: BatchFinding, batch: Batch, words: Remedy) -> SheetItem:
    item = finding.item
    return SheetItem(
        item.what,
        words.title or _begun_large(item.title),
        words.symptom or item.symptom,
        words.revisions or ", ".join(revisions_of(finding, batch)) or "not told",
        words.cause or _cause(item),
        words.remedy or NO_REMEDY,
        words.check or _check(item),
        wording(finding, batch),
        mended_in=words.mended_in or "",
    )


def _check(item: BatchItem) -> str:
    """Return which steps of which script must pass, by their titles."""
    told = "; ".join(item.titles[:STEPS_NAMED])
    left_out = len(item.titles) - STEPS_NAMED
    if left_out > 0:
        told += f" and {left_out} more"
    if not item.scripts:
        return f"these steps pass: {told}"
    word = "script" if len(item.scripts) == 1 else "scripts"
    return f"these steps of the {word} {listed(item.scripts)} pass: {told}"


def _begun_large(text: str) -> str:
    """Return a text as a heading."""
    return text[:1].upper() + text[1:]


def _cause(item: BatchItem) -> str:
    return item.title if item.is_cause else "not known"


def _kept(entry: Remedy, is_seen: bool) -> SheetItem:
    """Return the item of an entry of which these runs show nothing of the layout."""
    return SheetItem(
        entry.what,
        entry.title or entry.what,
        entry.symptom or "not told",
        entry.revisions or "not told",
        entry.cause or "not told",
        entry.remedy or NO_REMEDY,
        entry.check or "not told",
        NOT_OF_LAYOUT if is_seen else NOT_SEEN,
        is_seen=False,
        mended_in=entry.mended_in or "",
    )


def _unsettled(findings: BatchFindings, batch: Batch) -> Iterator[str]:
    """Yield what was seen on several boards, and goes with nothing for certain."""
    for finding in findings.found:
        item = finding.item
        if finding.origin == OPEN and not finding.is_everywhere and item.affected.bit_count() > 1:
            tried = (item.affected | item.clean).bit_count()
            revisions = ", ".join(revisions_of(finding, batch)) or "not told"
            told = UNSETTLED.format(item.affected.bit_count(), tried)
            yield f"{item.title} (revision {revisions}): {told}"


def _others(findings: BatchFindings) -> Iterator[str]:
    """Yield how many findings are not of the layout, and of what."""
    kinds = {
        ONE_BOARD: "of one board each",
        BUILDER: "that go with one builder",
        BATCH: "that go with one batch of parts",
    }
    for origin, told in kinds.items():
        count = sum(one.origin == origin for one in findings.found)
        if count:
            yield f"{count} {told}"
