"""What would explain a symptom, with what no simulated fault explains, as a page and as data."""

from collections.abc import Iterator, Sequence
from typing import TYPE_CHECKING

from termprobe.folding import folded
from termprobe.report.suspects import CAUTION, diagnosis_document, symptom_lines

if TYPE_CHECKING:
    from termprobe.diagnosis.model import Diagnosis
    from termprobe.diagnosis.unmodelled import Unmodelled

WIDTH = 80


def symptom_page(found: "Diagnosis") -> list[str]:
    """Return the lines of a plain page: first what is not modelled, and where to look first."""
    lines: list[str] = []
    for first, text in _told(found.unmodelled):
        lines += folded(first, text, WIDTH)
    if not lines:
        return symptom_lines(found)
    if found.suspects:
        lines += ["", *symptom_lines(found)]
    return lines


def symptom_document(found: "Diagnosis") -> dict[str, object]:
    """Return the document of `explain --json`: that of `diagnose`, and what is not modelled."""
    return diagnosis_document(found) | {
        "not_modelled": [
            {
                "name": one.name,
                "symptom": one.symptom,
                "why": one.why,
                "look_first": list(one.look_first),
                "rather": one.rather,
                "cautions": list(_cautions([one])),
                "source": one.source,
            }
            for one in found.unmodelled
        ]
    }


def _told(symptoms: "Sequence[Unmodelled]") -> Iterator[tuple[str, str]]:
    """Yield the beginning of a line, and what stands behind it."""
    for one in symptoms:
        yield "", f"{one.symptom[0].upper()}{one.symptom[1:]}. {one.why}"
    for caution in _cautions(symptoms):
        yield "  CAUTION  ", caution
    for one in symptoms:
        yield "  ", f"{one.name}: look first, in this order ({one.source}), at"
        for number, what in enumerate(one.look_first, 1):
            yield f"    {number}. ", f"{what}."
        if one.rather:
            yield "    ", one.rather


def _cautions(symptoms: "Sequence[Unmodelled]") -> Iterator[str]:
    """Yield what to beware of, each once."""
    yield from dict.fromkeys(caution for one in symptoms for caution in one.cautions)
    if any(one.is_on_live_board for one in symptoms):
        yield CAUTION
