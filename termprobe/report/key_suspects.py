"""What was concluded of a keyboard, as plain text.

It tells suspects, what speaks for and against each, and what to press next.
"""

from collections.abc import Iterator, Mapping, Sequence
from typing import TYPE_CHECKING

from termprobe.folding import first_of, folded
from termprobe.notation import visible
from termprobe.plan.model import Press

if TYPE_CHECKING:
    from termprobe.diagnosis.key_conclusion import Conclusion, Suspect

WIDTH = 80
PRESSES_SHOWN = 5
FAULTS_SHOWN = 4


def render(conclusion: "Conclusion", presses: Mapping[str, Press], left_out: int = 0) -> str:
    """Return the conclusion as text; `presses` holds by their ids those that were asked for.

    `left_out` is how many more the keyboard has; where there are any, nothing is said of it whole.
    """
    lines: list[str] = []
    for first, text in _told(conclusion, presses, left_out):
        lines += folded(first, text, WIDTH)
    return "\n".join(lines) + "\n"


def _told(
    conclusion: "Conclusion", presses: Mapping[str, Press], left_out: int
) -> Iterator[tuple[str, str]]:
    """Yield the beginning of a line, and what stands behind it."""
    if conclusion.is_healthy:
        yield "Suspects: ", of_no_fault(conclusion, presses, left_out)
        return
    hints = "; no single fault explains all that came, so take these as hints"
    yield "", "Suspects" if conclusion.explained else f"Suspects{hints}"
    for suspect in conclusion.suspects:
        yield from _suspect(suspect, presses)
    if conclusion.next:
        yield "", ""
        yield "", "These presses would decide next:"
    for press_id in conclusion.next:
        yield "  ", _title(press_id, presses)


def of_no_fault(conclusion: "Conclusion", presses: Mapping[str, Press], left_out: int) -> str:
    """Return what is said where the presses speak for no fault, a sentence or two."""
    if not conclusion.odd and left_out:
        return f"no fault indicated by these; {left_out} presses were not tried."
    if not conclusion.odd:
        return "none of the keyboard; its presses speak for no fault."
    odd = ", ".join(_title(press_id, presses) for press_id in conclusion.odd[:PRESSES_SHOWN])
    what = f"no fault that is known accounts for what came of {odd}"
    return f"none, but {what}. A slip of the hand does: press it again."


def _suspect(suspect: "Suspect", presses: Mapping[str, Press]) -> Iterator[tuple[str, str]]:
    yield f"  {suspect.probability:4.0%}  ", suspect.title
    more = " ..." if len(suspect.faults) > FAULTS_SHOWN else ""
    faults = ", ".join(suspect.faults[:FAULTS_SHOWN])
    yield "        ", f"{suspect.block}: {faults}{more}"
    for word, press_ids in (("for", suspect.supports), ("against", suspect.contradicts)):
        if press_ids:
            yield f"        {word}: ", _named(press_ids, presses)


def _named(press_ids: Sequence[str], presses: Mapping[str, Press]) -> str:
    """Return the presses by their names, of many only the first."""
    names = [_name(press_id, presses) for press_id in press_ids]
    return first_of(names, PRESSES_SHOWN)


def _name(press_id: str, presses: Mapping[str, Press]) -> str:
    press = presses.get(press_id)
    return visible(press.name if press else press_id)


def _title(press_id: str, presses: Mapping[str, Press]) -> str:
    press = presses.get(press_id)
    return press.title if press else press_id
