"""What was concluded of a keyboard, as plain text: suspects, what speaks for and against each, what to press next."""

import textwrap

from termprobe.notation import visible

WIDTH = 80
PRESSES_SHOWN = 5


def render(conclusion, titles):
    """Return the conclusion as text; `titles` says what each press id asks for."""
    if conclusion.is_healthy and not conclusion.odd:
        return "Suspects: none; what came speaks for no fault.\n"
    if conclusion.is_healthy:
        odd = ", ".join(titles.get(press, press) for press in conclusion.odd[:PRESSES_SHOWN])
        return (
            "\n".join(
                _wrapped(
                    "Suspects: ",
                    f"none, but no fault that is known accounts for what came of {odd}. "
                    "A slip of the hand does: press it again.",
                )
            )
            + "\n"
        )
    lines = [
        "Suspects"
        if conclusion.explained
        else "Suspects; no single fault explains all that came, so take these as hints"
    ]
    for suspect in conclusion.suspects:
        lines += _wrapped(f"  {suspect.probability:4.0%}  ", suspect.title)
        lines += _wrapped(
            "        ",
            f"{suspect.block}: {', '.join(suspect.faults[:4])}{' ...' if len(suspect.faults) > 4 else ''}",
        )
        for word, presses in (("for", suspect.supports), ("against", suspect.contradicts)):
            if presses:
                lines += _wrapped(f"        {word}: ", _named(presses))
    if conclusion.next:
        lines += ["", "These presses would decide next:"] + [
            f"  {visible(titles.get(press, press))}" for press in conclusion.next
        ]
    return "\n".join(lines) + "\n"


def _named(presses):
    more = f" and {len(presses) - PRESSES_SHOWN} more" if len(presses) > PRESSES_SHOWN else ""
    return ", ".join(press.removeprefix("press/") for press in presses[:PRESSES_SHOWN]) + more


def _wrapped(first, text):
    return textwrap.wrap(
        first + visible(text), WIDTH, subsequent_indent=" " * len(first), break_on_hyphens=False
    )
