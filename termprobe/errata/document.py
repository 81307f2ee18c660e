"""A batch as the JSON document of `termprobe errata`. Pure."""

from collections.abc import Sequence

from termprobe.errata.batch import Batch, BoardRuns
from termprobe.errata.document_records import (
    ErrataBoard,
    ErrataDocument,
    FindingTold,
    GroupTold,
    LeftOutTold,
    ShareTold,
    StepFailedTold,
    TimeTold,
    UnreadTold,
    YieldTold,
)
from termprobe.errata.history import histories, mean_time
from termprobe.errata.items import failed_steps
from termprobe.errata.origin import BatchFinding, BatchFindings
from termprobe.errata.summary import UnreadRun
from termprobe.errata.words import revisions_of, settling, wording
from termprobe.errata.yields import RevisionYield, Share, by_now, first_decided, yields_of
from termprobe.report.plain import Plain, plain_record

UNDECIDED = "incomplete"
DIGITS = 6


def errata_document(batch: Batch, findings: BatchFindings, unread: Sequence[UnreadRun]) -> Plain:
    """Return all that the text page says."""
    failed = failed_steps(batch)
    files = tuple(UnreadTold(one.path, one.why) for one in unread)
    return plain_record(
        ErrataDocument(
            batch.is_practice,
            batch.from_cards,
            {one.board.name: _board(one) for one in batch.boards},
            {one.revision: _yield(one) for one in yields_of(batch)},
            tuple(StepFailedTold(step, batch.names_in(own)) for step, own in failed.items()),
            tuple(_finding(one, findings, batch) for one in findings.found),
            findings.tests,
            {one.name: one.events for one in histories(batch)},
            _time(batch),
            LeftOutTold(batch.practice_left_out, batch.doubles, files),
        )
    )


def _board(one: BoardRuns) -> ErrataBoard:
    board = one.board
    return ErrataBoard(
        board.serial,
        board.revision,
        board.builder,
        board.batch,
        first_decided(one) or UNDECIDED,
        by_now(one) or UNDECIDED,
        tuple(run.path for run in one.runs),
    )


def _yield(one: RevisionYield) -> YieldTold:
    return YieldTold(one.boards, one.undecided, _share(one.first_pass), _share(one.passing))


def _share(share: Share) -> ShareTold:
    found = share.interval
    return ShareTold(share.count, share.of, round(found.low, 4), round(found.high, 4))


def _finding(finding: BatchFinding, findings: BatchFindings, batch: Batch) -> FindingTold:
    item = finding.item
    p, p_corrected, goes_with = _test(finding)
    return FindingTold(
        item.what,
        item.title,
        item.is_cause,
        item.alike,
        item.symptom,
        item.steps,
        finding.origin,
        p,
        p_corrected,
        goes_with,
        batch.names_in(item.affected),
        batch.names_in(item.clean),
        revisions_of(finding, batch),
        wording(finding, batch),
        settling(finding, findings, batch),
    )


def _test(finding: BatchFinding) -> tuple[float | None, float | None, tuple[GroupTold, ...]]:
    """Return p, p corrected, and the labels of the group that a finding goes with best."""
    best = finding.best
    if best is None:
        return None, None, ()
    groups = tuple(GroupTold(label.factor, label.values) for label in best.group.labels)
    return round(best.p, DIGITS), round(best.p_corrected, DIGITS), groups


def _time(batch: Batch) -> TimeTold | None:
    found = mean_time(batch)
    if found is None:
        return None
    return TimeTold(found.runs, round(found.looks, 1), round(found.minutes, 1), found.unnamed)
