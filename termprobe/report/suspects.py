"""What would explain a run: suspects, what speaks for and against them, what to probe."""

from collections.abc import Callable, Iterator, Sequence
from typing import TYPE_CHECKING

from termprobe.folding import first_of, folded
from termprobe.plan.model import Plan

if TYPE_CHECKING:
    from termprobe.diagnosis.key_conclusion import Suspect
    from termprobe.diagnosis.model import Diagnosis
    from termprobe.diagnosis.probing import Probing

WIDTH = 80
CAUTION = (
    "Live board: the scope's ground on signal ground, one hand away from the tube, no tip across "
    "two pins. Switch off and unplug before a continuity check, and before a chip is moved."
)
INFERRED = "No chip is proven bad by this: it is inferred. Measure before you replace."
STEPS_SHOWN = 6
FAULTS_SHOWN = 4
SUSPECTS_SHOWN = 4
BLOCKS_SHOWN = 3
PAIRS_SHOWN = 2
LEAST_PROBED = 0.05
"""Of suspects less probable than this it is not told what to probe."""
MANY_ALIKE = 4
TOLD_TOO_LITTLE = (
    "{} faults would show just this. Before you probe, tell more in the same call: other letters "
    "or keys, where on the screen it is wrong, and what is right all the same."
)
LEAST_SHOWN = 0.005
"""Suspects and blocks less probable than this are left out: they would be told of as 0 %."""
UNEXPLAINED = (
    "no single fault that is modelled explains all that was answered. Take these as hints; "
    "there may be two faults, or one of another kind"
)


def diagnosis_document(found: "Diagnosis") -> dict[str, object]:
    """Return the document of `diagnose --json`."""
    return {
        "verdict": found.verdict,
        "explained": found.is_explained,
        "suspects": suspects_list(found.suspects),
        "blocks": [
            {"block": one.block, "probability": round(one.probability, 4)} for one in found.blocks
        ],
        "next": found.next,
        "pairs": [
            {
                "faults": list(pair.faults),
                "titles": list(pair.titles),
                "explained": pair.is_explained,
            }
            for pair in found.pairs
        ],
    }


WHY_NEXT = {
    "TELLS_MOST": "would tell most",
    "TELLS_MOST_AGAIN": "once more would tell most",
    "HANGS": "once more, for the cause hangs on that one answer",
    "AGAINST": "once more, for that answer alone stands against the first cause",
}
"""By the names of WhyNext, which is not loaded for that."""


def suspects_list(suspects: "Sequence[Suspect]") -> list[dict[str, object]]:
    """Return the suspects as the JSON of `keys`, `report`, `diagnose` and `explain` names them."""
    return [
        {
            "class": list(suspect.faults),
            "title": suspect.title,
            "block": suspect.block,
            "probability": round(suspect.probability, 4),
        }
        for suspect in suspects
    ]


def suspect_lines(found: "Diagnosis", plan: Plan) -> list[str]:
    """Return what would explain a run of `plan` as lines of a plain page."""
    lines = symptom_lines(found)
    if found.next is not None:
        lines += folded("  Next: ", _next_in_words(found, plan), WIDTH)
    return lines


def _next_in_words(found: "Diagnosis", plan: Plan) -> str:
    """Return what to do next; a look that was answered is to be looked at once more."""
    return f"{found.next} {WHY_NEXT[found.why_next.name]}: {plan.title_of(found.next or '')}"


def cause_in_words(found: "Diagnosis | None") -> str:
    """Return what would explain a run best, in a line; empty where nothing would."""
    if found is None or not found.suspects:
        return ""
    first = found.suspects[0]
    if found.is_explained:
        return f"What would explain it ({first.probability:.0%}): {first.title}"
    return f"No single modelled fault explains all of it; nearest comes: {first.title}"


def symptom_lines(found: "Diagnosis") -> list[str]:
    """Return what would explain a symptom as lines of a plain page."""
    lines: list[str] = []
    for first, text in _told(found):
        lines += folded(first, text, WIDTH)
    return lines


def _told(found: "Diagnosis") -> Iterator[tuple[str, str]]:
    """Yield the beginning of a line, and what stands behind it."""
    if found.is_explained and not found.suspects:
        yield "", "Nothing to explain: no answer is other than a good board's."
        return
    if not found.suspects:
        yield "", "Suspects: none. What was answered speaks for no fault that is modelled."
        return
    if found.is_explained:
        yield "", "What would explain it"
    else:
        yield "", f"Suspects: {UNEXPLAINED}"
    probes = found.probes_of_each or ((),) * len(found.suspects)
    shown = [one for one in found.suspects if one.probability >= LEAST_SHOWN]
    shown = shown[:SUSPECTS_SHOWN] or list(found.suspects[:1])
    for suspect, of_suspect in zip(shown, probes, strict=False):
        yield from _suspect(suspect)
        if suspect.probability >= LEAST_PROBED:
            yield from _to_probe(of_suspect, "        ")
    left_out = len(found.suspects) - len(shown)
    if left_out > 0:
        yield "        ", f"and {left_out} less probable"
    for pair in found.pairs[:PAIRS_SHOWN]:
        how = "would explain it" if pair.is_explained else "come nearer than any alone"
        yield "  ", f"Two faults together {how}: {pair.titles[0]}, and {pair.titles[1]}"
        yield "        ", f"{pair.faults[0]} with {pair.faults[1]}"
    blocks = [one for one in found.blocks[:BLOCKS_SHOWN] if one.probability >= LEAST_SHOWN]
    if len(blocks) > 1:
        told = [f"{one.block} {one.probability:.0%}" for one in blocks]
        yield "  Blocks: ", ", ".join(told)
    count = len(found.suspects[0].faults)
    if found.is_explained and found.probes_of_each and count > MANY_ALIKE:
        yield "  ", TOLD_TOO_LITTLE.format(count)
    if found.probes_of_each:
        yield from _cautions()
    else:
        yield from _probes(found.probes)


def _suspect(suspect: "Suspect") -> Iterator[tuple[str, str]]:
    yield f"  {suspect.probability:4.0%}  ", suspect.title
    yield "        ", f"{suspect.block}: {first_of(suspect.faults, FAULTS_SHOWN)}"
    for word, steps in (("for", suspect.supports), ("against", suspect.contradicts)):
        if steps:
            yield f"        {word}: ", first_of(steps, STEPS_SHOWN)


def _probes(probes: "Sequence[Probing]") -> Iterator[tuple[str, str]]:
    """Yield what to probe for the first suspect."""
    yield from _to_probe(probes, "  ")
    if probes:
        yield from _cautions()


def _to_probe(probes: "Sequence[Probing]", before: str) -> Iterator[tuple[str, str]]:
    """Yield the signals, each with where to look first unless that was just said."""
    told = ""
    for probe in probes:
        if probe.signal:
            yield f"{before}Probe: ", f"{probe.signal}, {_meanwhile(probe)}: {probe.expect}."
        if probe.look_first_at != told:
            yield f"{before}  ", f"Look first at {probe.look_first_at}."
        told = probe.look_first_at


def _cautions() -> Iterator[tuple[str, str]]:
    yield "    ", CAUTION
    yield "    ", INFERRED


def probe_sentences(probe: "Probing", named: Callable[[str], str] = str) -> Iterator[str]:
    """Yield what to beware of, what to probe, and where to look first, a sentence each.

    `named(id)` is what a step is called in it; its id by default.
    """
    if probe.signal:
        yield CAUTION
        yield f"Probe {probe.signal}, {_meanwhile(probe, named)}: {probe.expect}."
    yield f"Look first at {probe.look_first_at}."


def _meanwhile(probe: "Probing", named: Callable[[str], str] = str) -> str:
    if probe.step is None:
        return probe.meanwhile or "while it is in use"
    return (
        f"while {named(probe.step)} is sent over and over (in the session: j {probe.step}, then w)"
    )
