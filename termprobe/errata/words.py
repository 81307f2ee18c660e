"""Findings in words, never stronger than the numbers: what a cause is consistent with. Pure."""

from collections.abc import Iterator

from termprobe.errata.batch import Batch, BoardSet
from termprobe.errata.groups import BATCH, BUILDER, REVISION, BoardGroup
from termprobe.errata.likely import likely
from termprobe.errata.origin import (
    OF_LAYOUT,
    ONE_BOARD,
    OPEN,
    BatchFinding,
    BatchFindings,
    TestedGroup,
)
from termprobe.errata.settle import (
    apart,
    group_in_words,
    label_in_words,
    more_boards,
    others_in_words,
)
from termprobe.folding import first_of

NAMES_SHOWN = 12
NOT_ON_ALL = "It is not on all of them: look for what is marginal, or hides it"
OF_ORIGIN = {
    OF_LAYOUT: "the layout of {}",
    BUILDER: "what {} does when building",
    BATCH: "the parts of {}",
}


def wording(finding: BatchFinding, batch: Batch) -> str:
    """Return what a finding is consistent with, and the numbers that say so."""
    return ". ".join(_told(finding, batch))


def _told(finding: BatchFinding, batch: Batch) -> Iterator[str]:
    match finding:
        case BatchFinding(origin="board"):
            yield _one_board(finding, batch)
        case BatchFinding(origin="open", is_everywhere=True):
            count = finding.item.affected.bit_count()
            yield (
                f"on every board on which it was tried ({count}): consistent with the layout, with "
                "something that all builders do, and with an expectation that is wrong"
            )
        case BatchFinding(origin="open"):
            yield from _open(finding, batch)
        case BatchFinding(best=TestedGroup() as best):
            group = best.group
            common = label_in_words(group.labels[0])
            yield f"consistent with {OF_ORIGIN[finding.origin].format(common)}: {_counted(best)}"
            if group.table.inside_without:
                yield NOT_ON_ALL


def _counted(tested: TestedGroup) -> str:
    """Return on how many boards of the group and of the others, and how likely that is by chance"""
    table, label = tested.group.table, tested.group.labels[0]
    inside = f"{table.inside_with} of {table.inside} boards of {label_in_words(label)}"
    outside = f"{table.outside_with} of {table.outside} of {others_in_words(label)}"
    return f"{inside} tried, {outside}; {_chance(tested)}"


def _chance(tested: TestedGroup) -> str:
    told = f"by chance {p_in_words(tested.p)}"
    return f"{told}, {p_in_words(tested.p_corrected)} corrected for all that was looked at"


def _one_board(finding: BatchFinding, batch: Batch) -> str:
    (name,) = batch.names_in(finding.item.affected)
    (one,) = batch.boards_in(finding.item.affected)
    count = finding.peers.bit_count()
    others, verb = f"{count} other boards", "do"
    if count == 1:
        others, verb = "1 other board", "does"
    revision = f" of revision {one.board.revision}" if one.board.revision else ""
    told = f"consistent with board {name} alone, {likely(finding.item.what)}"
    return f"{told}: tried on {others}{revision}, which {verb} not show it"


def _open(finding: BatchFinding, batch: Batch) -> Iterator[str]:
    count = finding.item.affected.bit_count()
    tested = finding.best
    if count == 1:
        yield "one board, and no other of its revision was tried: nothing can be told yet"
    elif tested is None:
        tried = (finding.item.affected | finding.item.clean).bit_count()
        yield f"{count} of {tried} boards tried, and they have nothing in common that others lack"
    elif tested.is_significant:
        common = " and ".join(sorted(tested.group.factors))
        yield (
            f"goes with {group_in_words(tested.group)}: {_counted(tested)}. "
            f"Consistent with either: {common} cannot be told apart by these boards"
        )
    else:
        yield f"not settled: {_counted(tested)}"


def settling(finding: BatchFinding, findings: BatchFindings, batch: Batch) -> str:
    """Return which boards would settle what the finding goes with; empty where it is settled."""
    tested, item = finding.best, finding.item
    if finding.origin not in (OPEN, ONE_BOARD):
        return ""
    if finding.origin == ONE_BOARD:
        return _second(item.affected, batch)
    if tested is not None and tested.is_significant:
        return apart(tested.group)
    if tested is None or item.affected.bit_count() == 1:
        return _without_group(finding, batch)
    return _more(tested.group, findings.tests)


def _second(affected: BoardSet, batch: Batch) -> str:
    """Return which second board would tell most."""
    (one,) = batch.boards_in(affected)
    for factor in (BUILDER, BATCH):
        value = getattr(one.board, factor)
        alike = [other for other in batch.boards if getattr(other.board, factor) == value]
        if value and len(alike) == 1:
            return f"another board of {factor} {value}, of which this is the only one"
    return "further boards: a second one that shows it speaks against this"


def _without_group(finding: BatchFinding, batch: Batch) -> str:
    revisions = {one.board.revision for one in batch.boards_in(finding.item.affected)}
    named = ", ".join(sorted(filter(None, revisions)))
    if finding.is_everywhere:
        beside = f" than {named}" if named else ""
        return f"a board of another revision{beside}, and one by another builder"
    if finding.item.affected.bit_count() == 1:
        return f"two more boards of revision {named}" if named else "two more boards"
    return "more boards that tell their revision, builder and batch"


def _more(group: BoardGroup, tests: int) -> str:
    """Return how many more boards would make the group significant."""
    needed = more_boards(group.table, tests)
    label = group.labels[0]
    if needed is None:
        return "more boards than these are likely to be built: look for another cause in common"
    told = []
    if needed.inside:
        verb = "shows" if needed.inside == 1 else "show"
        told.append(f"{needed.inside} more of {label_in_words(label)} that {verb} it")
    if needed.outside:
        verb = "does" if needed.outside == 1 else "do"
        told.append(f"{needed.outside} more of {others_in_words(label)} that {verb} not")
    return " and ".join(told)


def p_in_words(p: float) -> str:
    """Return `p = 0.0079`, with two digits that tell something, or that it is less than that."""
    return "p < 0.0001" if p < 0.0001 else f"p = {p:.2g}"


def from_cards_in_words(batch: Batch) -> str:
    """Return how many runs were filled in from cards, a sentence; empty where none was."""
    if not batch.from_cards:
        return ""
    how = "were filled in from cards"
    if batch.from_cards == 1:
        how = "was filled in from a card"
    return f"{batch.from_cards} of {batch.count_of_runs} runs {how}, whole or in part."


def boards_in_words(names: tuple[str, ...]) -> str:
    """Return the names of boards, at most NAMES_SHOWN of them."""
    return first_of(names, NAMES_SHOWN)


def revisions_of(finding: BatchFinding, batch: Batch) -> tuple[str, ...]:
    """Return the revisions that a finding affects: those that it goes with, or was seen on."""
    if finding.best is not None and finding.origin == OF_LAYOUT:
        labels = [one for one in finding.best.group.labels if one.factor == REVISION]
        return labels[0].values
    seen = {one.board.revision for one in batch.boards_in(finding.item.affected)}
    return tuple(sorted(filter(None, seen)))
