"""What was concluded of a keyboard, as plain text: suspects, what speaks for and against each, what
to press next."""

from collections.abc import Iterator, Mapping, Sequence

from termprobe.diagnosis.key_conclusion import Conclusion, Suspect
from termprobe.folding import folded
from termprobe.notation import visible

WIDTH = 80
PRESSES_SHOWN = 5
FAULTS_SHOWN = 4


def render(conclusion: Conclusion, titles: Mapping[str, str]) -> str:
    """Return the conclusion as text; `titles` says what each press id asks for."""
    lines: list[str] = []
    for first, text in _told(conclusion, titles):
        lines += folded(first, text, WIDTH)
    return "\n".join(lines) + "\n"


def _told(conclusion: Conclusion, titles: Mapping[str, str]) -> Iterator[tuple[str, str]]:
    """Yield the beginning of a line, and what stands behind it."""
    if conclusion.is_healthy:
        yield "Suspects: ", _of_no_fault(conclusion, titles)
        return
    hints = "; no single fault explains all that came, so take these as hints"
    yield "", "Suspects" if conclusion.explained else f"Suspects{hints}"
    for suspect in conclusion.suspects:
        yield from _suspect(suspect)
    if conclusion.next:
        yield "", ""
        yield "", "These presses would decide next:"
    for press in conclusion.next:
        yield "  ", titles.get(press, press)


def _of_no_fault(conclusion: Conclusion, titles: Mapping[str, str]) -> str:
    if not conclusion.odd:
        return "none; what came speaks for no fault."
    odd = ", ".join(titles.get(press, press) for press in conclusion.odd[:PRESSES_SHOWN])
    what = f"no fault that is known accounts for what came of {odd}"
    return f"none, but {what}. A slip of the hand does: press it again."


def _suspect(suspect: Suspect) -> Iterator[tuple[str, str]]:
    yield f"  {suspect.probability:4.0%}  ", suspect.title
    more = " ..." if len(suspect.faults) > FAULTS_SHOWN else ""
    faults = ", ".join(suspect.faults[:FAULTS_SHOWN])
    yield "        ", f"{suspect.block}: {faults}{more}"
    for word, presses in (("for", suspect.supports), ("against", suspect.contradicts)):
        if presses:
            yield f"        {word}: ", _named(presses)


def _named(presses: Sequence[str]) -> str:
    shown = ", ".join(_short(press) for press in presses[:PRESSES_SHOWN])
    more = len(presses) - PRESSES_SHOWN
    return f"{shown} and {more} more" if more > 0 else shown


def _short(press: str) -> str:
    """Return the id of a press as people read it: the key's name with its modifiers."""
    return visible(press.removeprefix("press/"))
