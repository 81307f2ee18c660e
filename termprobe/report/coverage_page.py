"""What a plan proves of a board, as a page."""

from collections.abc import Iterable, Iterator, Sequence

from termprobe.diagnosis.coverage import Coverage, PartCoverage
from termprobe.diagnosis.fault_names import parsed
from termprobe.diagnosis.smallest_steps import SmallestSteps
from termprobe.diagnosis.visibility import CLASSES
from termprobe.folding import first_of, folded
from termprobe.plan.effort import MS
from termprobe.plan.model import KeyPress, Plan
from termprobe.report.coverage_document import CoverageTold, source_of

WIDTH, INDENT = 80, 2
NAMED = 12
"""So many faults are named at most."""
SMALL_PRINT = (
    "A fault counts as shown where looks or presses show it for certain, whatever RAM held before. "
    "Questions, readings, replies and typed words are not played: what only they show counts as "
    "missed. The model knows levels and lines, one fault at a time. It leaves out timing (races, "
    "glitches, slow memory), weak or floating levels, supply and noise, contacts that come and go "
    "(but for keys), parts that fail when warm"
)
NO_DOTS = ", and the dots of the characters: a board with such a fault may pass."
ONLY_EYES = (
    ": a board with such a fault may pass. Dots that are wrong only eyes see, never a dump, and "
    "they count as shown where a question asks for dots, or where a quarter of all cells has them."
)
_DOTS_SHOWN = {
    True: "Every dot of every drawing is shown that is wrong in it alone",
    False: "Not every dot of every drawing is shown that is wrong in it alone",
}


def coverage_page(told: CoverageTold) -> str:
    """Return what is told as lines of at most 80 characters."""
    found = told.found
    blocks = [
        _head(told),
        _parts(found),
        _by_block(found),
        _visibility(told),
        _smallest(told),
        _reasons(found),
        _missed(found),
        folded("", _small_print(found), WIDTH, 0),
    ]
    return _joined(blocks)


def brief_page(told: CoverageTold, before: Coverage | None) -> str:
    """Return the page without its small print, and what is new since `before` where that is given.

    Of the blocks it names those that miss faults.
    """
    found = told.found
    blocks = [
        _head(told),
        _parts(found),
        _by_block(found, are_all=False),
        _smallest(told),
        _missed(found),
        _changes(found, before or found),
    ]
    return _joined(blocks)


def _joined(blocks: Iterable[Sequence[str]]) -> str:
    return "\n\n".join("\n".join(block) for block in blocks if block)


def _changes(found: Coverage, before: Coverage) -> list[str]:
    """Return what is shown that was not `before`, and what is no longer."""
    shown, were_shown = set(found.detected), set(before.detected)
    gained = [fault for fault in found.detected if fault not in were_shown]
    lost = [fault for fault in before.detected if fault not in shown]
    return [*_some("Newly shown", gained), *_some("No longer shown", lost)]


def _small_print(found: Coverage) -> str:
    if found.shows_all_dots is None:
        return SMALL_PRINT + NO_DOTS
    return SMALL_PRINT + ONLY_EYES


def _head(told: CoverageTold) -> list[str]:
    plan = told.plan
    presses = len(_presses(plan, [step.id for step in plan.steps if not step.not_fitted]))
    return folded(
        f"{plan.script_id} for {plan.profile_id}: ",
        f"on a good board {_looks(told.effort.looks)}, {presses} presses of its keys, "
        f"about {told.seconds:.0f} s of the builder",
        WIDTH,
        INDENT,
    )


def _looks(count: int) -> str:
    if count == 1:
        return "1 look"
    return f"{count} looks"


def _parts(found: Coverage) -> list[str]:
    can_be = found.faults - len(found.undetectable)
    bits = "Not every bit of every RAM cell is shown"
    if found.shows_all_bits:
        bits = "Every bit of every RAM cell of the screen is shown"
    lines = [
        f"Shown: {len(found.detected)} of {can_be} faults that can be; "
        f"{found.classes} can be told apart",
        f"  {'of the display':<22}{_figures(found.display)}",
        f"  {'of keyboard and line':<22}{_figures(found.beside)}",
        f"{bits}, stuck at either level",
    ]
    if found.shows_all_dots is not None:
        lines[2:2] = [f"  {'of the dots, by eyes':<22}{_figures(found.dots)}"]
        lines.append(_DOTS_SHOWN[found.shows_all_dots])
    return lines


def _by_block(found: Coverage, are_all: bool = True) -> list[str]:
    """Return a line for each block, or each that misses faults, under one that names the worst."""
    parts = found.by_block.items()
    named = [(block, part) for block, part in parts if are_all or part.missed]
    lines = [f"  {block:<22}{_figures(part)}" for block, part in named]
    worst, part = next(iter(parts))
    if not part.missed:
        return ["By block; none misses any:", *lines]
    return [f"By block, the worst first, which is {worst}:", *lines]


def _figures(part: PartCoverage) -> str:
    can_be = part.faults - part.undetectable
    figures = f"{part.detected:>5} of {can_be:>4}  {100 * part.share:5.1f} %"
    if part.undetectable:
        make = "makes" if part.undetectable == 1 else "make"
        figures += f"   and {part.undetectable} that {make} no difference"
    return figures


def _visibility(told: CoverageTold) -> list[str]:
    human = told.found.human
    if not any(human.by_visibility.values()):
        return []
    rows = [
        f"  {each.name:<8}{human.by_visibility[each.name]:>5}   {_percent(told.miss[each.name])} "
        f"missed   {each.what}"
        for each in CLASSES
    ]
    return [
        "How visible the faults of the display are, each at the look that shows it best:",
        *rows,
        *folded(
            "",
            f"A builder who misses so many would find {100 * human.share:.1f} % of the faults of "
            "the display that can be shown, if each look is a chance of its own (the same slip "
            f"made twice is not). {human.twice} are shown by two looks or more that are asked.",
            WIDTH,
            0,
        ),
        *folded("Rates: ", "; ".join(_sources(told)), WIDTH, INDENT),
    ]


def _sources(told: CoverageTold) -> Iterator[str]:
    """Yield for each class where its rate comes from."""
    for each in CLASSES:
        yield f"{each.name}, {source_of(each, told.miss)}"


def _percent(share: float) -> str:
    return f"{100 * share:3.0f} %"


def _smallest(told: CoverageTold) -> list[str]:
    smallest, presses = told.found.smallest, _presses(told.plan, told.found.smallest.steps)
    if not smallest.steps:
        return []
    names = [step for step in smallest.steps if step not in presses]
    if presses:
        names.append(f"{len(presses)} presses")
    return folded(f"{_proof(smallest, told.weigh)}: ", ", ".join(names), WIDTH, INDENT)


def _proof(smallest: SmallestSteps, weigh: str) -> str:
    """Return how small the smallest set is, and what is proven of it."""
    cost, bound = f"{smallest.cost} steps", f"{smallest.lower_bound} steps"
    if weigh == "seconds":
        cost = f"Steps that take {smallest.cost / MS:.1f} s"
        bound = f"{smallest.lower_bound / MS:.1f} s"
    shows = f"{cost} show every fault that the whole script shows"
    if smallest.is_smallest:
        return f"{shows}, and it is proven that no less does"
    return f"{shows}; it is proven that less than {bound} does not"


def _presses(plan: Plan, step_ids: Iterable[str]) -> set[str]:
    return {step_id for step_id in step_ids if isinstance(plan.step(step_id), KeyPress)}


def _reasons(found: Coverage) -> list[str]:
    """Return for each reason the faults that make no difference by it."""
    by_why: dict[str, list[str]] = {}
    for fault, why in found.undetectable.items():
        by_why.setdefault(why, []).append(fault)
    lines: list[str] = []
    for why, faults in by_why.items():
        lines += folded(f"  {len(faults)}: ", f"{first_of(faults, 2)}: {why}", WIDTH, 2 * INDENT)
    return lines and ["No difference, whatever is sent or pressed; the wiring proves it:", *lines]


def _missed(found: Coverage) -> list[str]:
    """Return the faults that are missed; of a block of which nothing is shown, the block."""
    if not found.missed:
        return []
    untried = {block: part for block, part in found.by_block.items() if not part.detected}
    named = [fault for fault in found.missed if parsed(fault).where not in untried]
    texts = [f"all {part.missed} of {block}" for block, part in untried.items() if part.missed]
    return _some("Missed", texts + named, len(found.missed))


def _some(what: str, texts: Sequence[str], count: int | None = None) -> list[str]:
    """Return the first of `texts` behind `what` and how many there are, by default all texts."""
    if not texts:
        return []
    text = first_of(texts, NAMED)
    if len(texts) > NAMED:
        text += "; all with --json"
    return folded(f"{what} ({count or len(texts)}): ", text, WIDTH, INDENT)
