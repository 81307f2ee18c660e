"""What a report is made from: one run, read back, compiled and judged."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import cached_property
from typing import TYPE_CHECKING

from termprobe.journal.added import of_sittings
from termprobe.journal.card import is_from_card
from termprobe.journal.reading import Recording
from termprobe.journal.records import Header, Record, Resumed, SentLate
from termprobe.journal.spans import LinkSpan, link_spans
from termprobe.journal.standing import positions_by
from termprobe.photo.found import FoundPhoto
from termprobe.plan.model import Plan
from termprobe.profile.model import Profile
from termprobe.report import text_words
from termprobe.report.attention_words import AttentionChecks, attention_checks
from termprobe.report.block_shown import BlockShown
from termprobe.report.causes import CommonCause, common_causes
from termprobe.report.changes import Changes, changes_since
from termprobe.report.headline import Scope, board_name
from termprobe.report.key_findings import KeyFindings
from termprobe.report.not_covered import not_covered
from termprobe.report.run_notes import RunNote, notes_of
from termprobe.report.unseen_words import passed_by_characters
from termprobe.verdict.ending import has_end
from termprobe.verdict.model import RunVerdict
from termprobe.verdict.texts import TextsUsed

if TYPE_CHECKING:
    from termprobe.diagnosis.model import Diagnosis


@dataclass(frozen=True)
class RunReport:
    """One run of one board."""

    path: str
    """The run file."""
    header: Header
    """The first record of the run file: board, link, tool, texts of profile and script."""
    plan: Plan
    verdict: RunVerdict
    options: tuple[tuple[str, str], ...] = ()
    """(option, position) as last set."""
    ended: str = ""
    """Date of the last record."""
    damages: tuple[str, ...] = ()
    """What could not be read of the run file."""
    notes: tuple[str, ...] = ()
    """Remarks on the reading itself, for example that the plan compiles differently today."""
    noted: tuple[RunNote, ...] = ()
    """What was noted while the run went on."""
    keys: KeyFindings | None = None
    """What its presses of keys have shown; None where there were none."""
    scope: Scope = Scope()
    """What the run was to try, and whether on a real board."""
    links: tuple[LinkSpan, ...] = ()
    """The links over which the run went, in order."""
    not_covered: tuple[str, ...] = ()
    """What the terminal has that the run did not try, a phrase each."""
    texts: TextsUsed | None = None
    """Of a run that went on with another text of profile or script."""
    diagnosis: "Diagnosis | None" = None
    """What would explain it; None where no look, reply or word failed."""
    changes: Changes | None = None
    """What has changed since the run that it comes after; None where it comes after none."""
    checks: AttentionChecks | None = None
    """How its attention checks went; None where none were wanted."""
    records: tuple[Record, ...] = ()
    """All that stands in the run file behind its header."""
    profile: Profile | None = None
    digest: str = ""
    """SHA-256 of the bytes of the run file, in hexadecimal; empty where that is not known."""
    over_edges: frozenset[str] = frozenset()
    """Commands that went over an edge of the screen in a step that passed."""
    blocks: tuple[BlockShown, ...] = ()
    """Of which faults of each block the steps that passed show that they are not there."""
    photos: tuple[FoundPhoto, ...] = ()
    """Those that its notes name, as they were found beside the run file."""

    @cached_property
    def causes(self) -> tuple[CommonCause, ...]:
        """What made several steps fail for one cause."""
        return common_causes(self.verdict, self.diagnosis)

    @property
    def board_name(self) -> str:
        """The board, as headlines call it."""
        return board_name(self.header.board.serial)


def run_report(
    path: str,
    header: Header,
    recording: Recording,
    plan: Plan,
    verdict: RunVerdict,
    profile: Profile,
    left_out: int = 0,
    keys: KeyFindings | None = None,
    texts: TextsUsed | None = None,
    diagnosis: "Diagnosis | None" = None,
) -> RunReport:
    """Return the RunReport of a recording of which all else is known.

    `left_out` is how many steps of the script that are fitted are not in the plan.
    """
    records = recording.records
    links = link_spans(header, records)
    return RunReport(
        path,
        header,
        plan,
        verdict,
        tuple(sorted(positions_by(records).items())),
        _ended(records),
        recording.damages,
        tuple(_remarks(header, plan, recording, verdict)),
        notes_of(records),
        keys,
        _scope(header, records, links, left_out),
        links,
        not_covered(profile, plan, records, links),
        texts,
        diagnosis,
        changes_since(records, verdict),
        attention_checks(records),
        records,
        profile,
    )


def _scope(
    header: Header, records: Sequence[Record], links: Sequence[LinkSpan], left_out: int
) -> Scope:
    is_on_link = any(span.steps for span in links)
    return Scope(left_out, _is_practice(header, links), is_from_card(records), is_on_link)


def _is_practice(header: Header, links: Sequence[LinkSpan]) -> bool:
    return header.practice is not None or any(span.is_practice for span in links)


def _ended(records: Sequence[Record]) -> str:
    """Return the date of the last record of a sitting that has one."""
    dates = [record.at for record in of_sittings(records) if record.at]
    return dates[-1] if dates else ""


def _remarks(
    header: Header, plan: Plan, recording: Recording, verdict: RunVerdict
) -> Iterator[str]:
    yield from _notes(header, plan, recording)
    yield from passed_by_characters(verdict.steps)
    yield from _late(recording)


def _notes(header: Header, plan: Plan, recording: Recording) -> Iterator[str]:
    if not has_end(recording.records):
        yield text_words.NO_END
    if _plan_hash(header, recording) not in (None, plan.hash):
        yield (
            "the plan was compiled by another version of termprobe; "
            "steps may have changed since the run"
        )


def _plan_hash(header: Header, recording: Recording) -> str | None:
    """Return the hash of the plan as it was compiled last in the run."""
    resumed = [record for record in recording.records if isinstance(record, Resumed)]
    hashes = [header.plan_hash, *(record.plan_hash for record in resumed)]
    return next((found for found in reversed(hashes) if found), None)


def _late(recording: Recording) -> Iterator[str]:
    """Say of each link over which characters were sent late how many, and by how much."""
    for record in recording.records:
        if isinstance(record, SentLate):
            yield (
                f"{record.late} of {record.characters} characters were sent late, by "
                f"{record.worst_s * 1000:.3g} ms at most: this computer was busy. "
                "No fault of the board"
            )
