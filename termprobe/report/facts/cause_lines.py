"""What failed, in one line for each cause: where it lies, and what to do next. Pure."""

from collections.abc import Hashable, Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from termprobe.plan.model import KeyPress, Measure
from termprobe.report import words
from termprobe.report.facts.numbers import counted
from termprobe.report.key_findings import explained_presses
from termprobe.report.record import RunReport
from termprobe.verdict.model import FAIL, Differing, LineFound, StepVerdict
from termprobe.verdict.support import likeness

if TYPE_CHECKING:
    from termprobe.diagnosis.probing import Probing

LOOK_AGAIN = "mark the cells that differ, or compare the whole screen by a dump"
MEND_FIRST = "mend what stands above, then run it again"
SEND_AGAIN = "try cable, adapter and settings of the line, then send it again"
PRESS_AGAIN = "press it again; where it stays wrong, clean the contact and follow its lines"
MEASURE_AGAIN = "measure again at another point; where it stays, follow it to its source"
SURE = 0.9
"""From this probability on one fault is told as the cause, below as the likeliest."""
MOST_MENDED = 8
"""Of more faults that look the same none is mended before another look has told them apart."""
ASK_AGAIN = "answer the step again, from its first command"


@dataclass(frozen=True)
class CauseLine:
    """One cause of failures."""

    title: str
    """What is wrong, with line, chip and pin where the profile has them."""
    steps: tuple[str, ...]
    """Ids of the steps that failed by it, in the order of the plan."""
    next: str
    """What to do next."""
    fault: str = ""
    """The modelled fault, by its name; empty where none explains it."""
    probability: float | None = None
    probe: str = ""
    """The signal to probe, and what to expect; empty where none is known."""

    @property
    def count(self) -> str:
        """`38 steps`."""
        return counted(len(self.steps), "step")

    @property
    def percent(self) -> str:
        """`100 %`; empty where no probability is known."""
        return "" if self.probability is None else f"{self.probability:.0%}".replace("%", " %")

    @property
    def told(self) -> str:
        """All of it in one paragraph."""
        parts = [" ".join(filter(None, (self.title, self.percent and f"({self.percent})")))]
        parts[0] += f": {self.count} failed by it"
        if self.probe:
            parts.append(f"Probe {self.probe}")
        parts.append(f"Next: {self.next}")
        if self.fault:
            parts.append(self.fault)
        return ". ".join(parts)


def cause_lines(report: RunReport) -> tuple[CauseLine, ...]:
    """Return the causes: known faults and what explains most first, then what is unexplained."""
    found = _each_once(report, [*_of_looks(report), *_of_keys(report)])
    told = {step for cause in found for step in cause.steps}
    failed = [step for step in report.verdict.steps if step.verdict == FAIL]
    alike = _alike(step for step in failed if step.id not in told)
    return (*found, *(_unexplained(report, group, bool(found)) for group in alike))


def _each_once(report: RunReport, causes: Iterable[CauseLine]) -> list[CauseLine]:
    """Return the causes, one that was found by looks and by presses as one."""
    found: dict[str, CauseLine] = {}
    index = report.plan.index
    for one in causes:
        before = found.get(one.title, one)
        steps = sorted({*before.steps, *one.steps}, key=lambda step: index.get(step, 0))
        found[one.title] = replace(before, steps=tuple(steps))
    return list(found.values())


def _of_looks(report: RunReport) -> Iterator[CauseLine]:
    """Yield the causes of what was seen and returned wrong."""
    found = report.diagnosis
    first = None
    if found is not None and found.is_explained and found.suspects:
        first = found.suspects[0]
    for cause in report.causes:
        if first is not None and first.title == cause.title and found is not None:
            whole = _cause(cause.title, cause.steps, cause.fault, first.probability, found.probes)
            yield _narrowed(report, whole, len(first.faults))
        else:
            yield _cause(cause.title, cause.steps, cause.fault)
    if report.causes or first is None or found is None or first.probability < SURE:
        return
    failed = [step.id for step in report.verdict.steps if step.verdict == FAIL]
    own = tuple(step for step in failed if step in first.supports)
    if own:
        whole = _cause(first.title, own, first.faults[0], first.probability, found.probes)
        yield _narrowed(report, whole, len(first.faults))


def _narrowed(report: RunReport, cause: CauseLine, alike: int) -> CauseLine:
    """Return the cause; where too many faults look the same, the next thing is to tell them apart.

    `alike` is how many do.
    """
    found = report.diagnosis
    if alike <= MOST_MENDED or found is None or found.next is None:
        return cause
    return replace(cause, next=f"tell them apart: {_next_look(report)}")


def _of_keys(report: RunReport) -> Iterator[CauseLine]:
    """Yield the one cause of the presses that a fault explains."""
    presses = explained_presses(report.keys, report.plan, report.verdict)
    if report.keys is None or not presses:
        return
    first = report.keys.conclusion.suspects[0]
    yield _cause(first.title, presses, first.faults[0], first.probability, report.keys.probes)


def _cause(
    title: str,
    steps: Sequence[str],
    fault: str,
    probability: float | None = None,
    probes: "Sequence[Probing]" = (),
) -> CauseLine:
    if probability is not None and probability < SURE:
        title = f"likeliest of several: {title}"
    if not probes:
        return CauseLine(title, tuple(steps), "mend it, then run these again", fault, probability)
    probe = probes[0]
    told = f"{probe.signal}: {probe.expect}" if probe.signal else ""
    next_ = f"look first at {probe.look_first_at}"
    return CauseLine(title, tuple(steps), next_, fault, probability, told)


def _alike(failed: Iterable[StepVerdict]) -> list[list[StepVerdict]]:
    """Return the failed steps in groups that the same evidence explains, largest group first."""
    groups: dict[Hashable, list[StepVerdict]] = {}
    for step in failed:
        groups.setdefault(likeness(step), []).append(step)
    return sorted(groups.values(), key=lambda group: -len(group))


def _unexplained(
    report: RunReport, group: Sequence[StepVerdict], is_behind_others: bool
) -> CauseLine:
    first = group[0]
    reason = words.reason(first, report.plan.title_of)
    told = "; ".join(filter(None, (first.title, reason, *words.evidence(first)[:1])))
    next_ = _next(report, first)
    if is_behind_others and isinstance(first.because, Differing):
        next_ = MEND_FIRST
    return CauseLine(told, tuple(step.id for step in group), next_)


def _next(report: RunReport, failed: StepVerdict) -> str:
    """Return what to do about a step that no fault explains."""
    step = report.plan.step(failed.id) if failed.id in report.plan.index else None
    match failed.because:
        case LineFound():
            return SEND_AGAIN
        case Differing():
            return _next_look(report)
    match step:
        case KeyPress():
            return PRESS_AGAIN
        case Measure(stop_if=when):
            return f"{MEASURE_AGAIN}; switch off when {when}" if when else MEASURE_AGAIN
    return ASK_AGAIN


def _next_look(report: RunReport) -> str:
    found = report.diagnosis
    if found is None or found.next is None:
        return LOOK_AGAIN
    return f'"{report.plan.title_of(found.next)}" would tell most'
