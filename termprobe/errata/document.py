"""A batch as the JSON document of `termprobe errata`. Pure."""

from collections.abc import Sequence

from termprobe.errata.batch import Batch, BoardRuns
from termprobe.errata.groups import Label
from termprobe.errata.history import histories, mean_time
from termprobe.errata.items import failed_steps
from termprobe.errata.origin import BatchFinding, BatchFindings
from termprobe.errata.summary import UnreadRun
from termprobe.errata.words import revisions_of, settling, wording
from termprobe.errata.yields import RevisionYield, Share, by_now, first_decided, yields_of

ErrataDocument = dict[str, object]
UNDECIDED = "incomplete"
DIGITS = 6


def errata_document(
    batch: Batch, findings: BatchFindings, unread: Sequence[UnreadRun]
) -> ErrataDocument:
    """Return all that the text page says.

    `boards` and `revisions` are objects by name; `p` is of Fisher's exact test, two-sided, for the
    group that the finding goes with best, null where there is none to compare; `p_corrected` is the
    same for all tests together.
    """
    failed = failed_steps(batch)
    return {
        "practice": batch.is_practice,
        "boards": {one.board.name: _board(one) for one in batch.boards},
        "revisions": {one.revision: _yield(one) for one in yields_of(batch)},
        "steps": [
            {"id": step, "failed": list(batch.names_in(boards))} for step, boards in failed.items()
        ],
        "findings": [_finding(one, findings, batch) for one in findings.found],
        "tests": findings.tests,
        "histories": {one.name: list(one.events) for one in histories(batch)},
        "time_to_cause": _time(batch),
        "left_out": {
            "practice": batch.practice_left_out,
            "doubles": batch.doubles,
            "unread": [{"run": one.path, "why": one.why} for one in unread],
        },
    }


def _board(one: BoardRuns) -> ErrataDocument:
    board = one.board
    return {
        "serial": board.serial,
        "revision": board.revision,
        "builder": board.builder,
        "batch": board.batch,
        "first": first_decided(one) or UNDECIDED,
        "now": by_now(one) or UNDECIDED,
        "runs": [run.path for run in one.runs],
    }


def _yield(one: RevisionYield) -> ErrataDocument:
    return {
        "boards": one.boards,
        "undecided": one.undecided,
        "first_pass": _share(one.first_pass),
        "passing": _share(one.passing),
    }


def _share(share: Share) -> ErrataDocument:
    return {
        "count": share.count,
        "of": share.of,
        "low_95": round(share.interval.low, 4),
        "high_95": round(share.interval.high, 4),
    }


def _finding(finding: BatchFinding, findings: BatchFindings, batch: Batch) -> ErrataDocument:
    item, best = finding.item, finding.best
    document: ErrataDocument = {
        "what": item.what,
        "title": item.title,
        "is_cause": item.is_cause,
        "alike": list(item.alike),
        "symptom": item.symptom,
        "steps": list(item.steps),
        "origin": finding.origin,
        "p": None,
        "p_corrected": None,
        "goes_with": [],
        "boards": list(batch.names_in(item.affected)),
        "clean": list(batch.names_in(item.clean)),
        "revisions": list(revisions_of(finding, batch)),
        "wording": wording(finding, batch),
        "settle": settling(finding, findings, batch),
    }
    if best is not None:
        document["p"] = round(best.p, DIGITS)
        document["p_corrected"] = round(best.p_corrected, DIGITS)
        document["goes_with"] = [_label(label) for label in best.group.labels]
    return document


def _label(label: Label) -> ErrataDocument:
    return {"factor": label.factor, "values": list(label.values)}


def _time(batch: Batch) -> ErrataDocument | None:
    found = mean_time(batch)
    if found is None:
        return None
    return {
        "runs": found.runs,
        "looks": round(found.looks, 1),
        "minutes": round(found.minutes, 1),
        "unnamed": found.unnamed,
    }
