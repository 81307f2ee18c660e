"""What would explain a run: suspects by their titles, what speaks for and against each. Pure."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING, NamedTuple

from termprobe.plan.model import KeyPress
from termprobe.report.key_findings import untried
from termprobe.report.key_suspects import of_no_fault
from termprobe.report.record import RunReport
from termprobe.report.suspects import (
    BLOCKS_SHOWN,
    FAULTS_SHOWN,
    LEAST_SHOWN,
    PAIRS_SHOWN,
    SUSPECTS_SHOWN,
    UNEXPLAINED,
    probe_sentences,
)

if TYPE_CHECKING:
    from termprobe.diagnosis.key_conclusion import Suspect

Titled = Callable[[str], str]
THE_BOARD, THE_KEYBOARD = "the board", "the keyboard"
"""What something can be a suspect of."""


class SuspectFacts(NamedTuple):
    """One fault, or several that nothing tells apart."""

    percent: int
    title: str
    block: str
    faults: tuple[str, ...]
    """By their names, the first of them."""
    supports: tuple[str, ...]
    """Titles of the steps that speak for it."""
    contradicts: tuple[str, ...]


@dataclass(frozen=True)
class SuspectsFacts:
    """What the looks, or the keys, of a run speak for."""

    what: str
    """What they are suspects of."""
    note: str
    """What limits them, or that there are none."""
    suspects: tuple[SuspectFacts, ...] = ()
    pairs: tuple[str, ...] = ()
    blocks: tuple[str, ...] = ()
    """`receiver-data 80%`, best first."""
    probes: tuple[str, ...] = ()
    """What to beware of, what to probe and where to look first, a sentence each."""
    next: tuple[str, ...] = ()
    """Titles of what would tell most next."""


def suspects(report: RunReport) -> tuple[SuspectsFacts, ...]:
    """Return what the looks of a run say, then what its keys say; none where nothing is said."""
    found = (_of_looks(report), _of_keys(report))
    return tuple(one for one in found if one is not None)


def _of_looks(report: RunReport) -> SuspectsFacts | None:
    found = report.diagnosis
    if found is None:
        return None
    note = "" if found.is_explained else UNEXPLAINED
    if not found.suspects:
        note = "What was answered speaks for no fault that is modelled"
    titled = report.plan.title_of

    def quoted(step: str) -> str:
        return f'"{titled(step)}"'

    pairs = (f"{one.titles[0]}, and {one.titles[1]}" for one in found.pairs[:PAIRS_SHOWN])
    blocks = [one for one in found.blocks[:BLOCKS_SHOWN] if one.probability >= LEAST_SHOWN]
    return SuspectsFacts(
        THE_BOARD,
        note,
        _suspects(found.suspects, titled),
        tuple(pairs),
        tuple(f"{one.block} {one.probability:.0%}" for one in blocks),
        tuple(dict.fromkeys(text for one in found.probes for text in probe_sentences(one, quoted))),
        (titled(found.next),) if found.next else (),
    )


def _of_keys(report: RunReport) -> SuspectsFacts | None:
    if report.keys is None:
        return None
    found = report.keys.conclusion
    asked = [step for step in report.plan.steps if isinstance(step, KeyPress)]
    presses = {step.press.id: step.press for step in asked}
    titles = {name: press.title for name, press in presses.items()}
    names = {name: press.name for name, press in presses.items()}
    note = ""
    if found.is_healthy:
        left = untried(asked, report.plan, report.verdict, report.scope.left_out)
        note = of_no_fault(found, presses, left).rstrip(".")
    elif not found.explained:
        note = UNEXPLAINED
    return SuspectsFacts(
        THE_KEYBOARD,
        note,
        _suspects(found.suspects, lambda press: names.get(press, press)),
        probes=tuple(
            dict.fromkeys(text for one in report.keys.probes for text in probe_sentences(one))
        ),
        next=tuple(titles.get(press, press) for press in found.next),
    )


def _suspects(found: "Sequence[Suspect]", titled: Titled) -> tuple[SuspectFacts, ...]:
    return tuple(
        SuspectFacts(
            round(one.probability * 100),
            one.title,
            one.block,
            one.faults[:FAULTS_SHOWN],
            tuple(map(titled, one.supports)),
            tuple(map(titled, one.contradicts)),
        )
        for one in found[:SUSPECTS_SHOWN]
    )
