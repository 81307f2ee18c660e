"""The rate stepped while a key comes, at plain prompts: the board's clock and its margins."""

import argparse
import sys

from termprobe.cli.console import Console
from termprobe.cli.format_line import FormatLine, opened_format_line
from termprobe.errors import EXIT_FAILED, EXIT_INCOMPLETE, EXIT_PASSED, UsageError
from termprobe.line.formats import clock_ratio_near
from termprobe.line.rate_sweep import LineSweep, SweepStep, Swept, bound_percent
from termprobe.link.frame_text import frame_text
from termprobe.report.formats.json import dump

SWEEP_HELP = "step the rate of this side while a key comes: the board's clock, and its margins"
WITHIN_PERCENT = 0.5
"""How far off the clock that is told may be; tests hold it on a simulated cable."""
PRESS_APART_S = 0.1
INTRODUCTION = (
    "First this side is timed: characters 7Fh go to the board at two wrong rates, so anything may "
    "show on its screen. Then the rate is stepped."
)
PRESS = (
    "Press {key} on the terminal again and again, or hold it where it repeats, until the sweep is "
    "done: some sixty characters must come."
)
_VERDICT_CODES = {True: EXIT_PASSED, False: EXIT_FAILED, None: EXIT_INCOMPLETE}
_WORDS = {True: "right", False: "wrong", None: "unknown"}


def sweep_at(arguments: argparse.Namespace) -> int:
    """Sweep over the line to `--port`; return the exit code."""
    console = Console(sys.stderr if arguments.json else sys.stdout)
    line = opened_format_line(arguments)
    try:
        swept = _swept(line, console)
    finally:
        line.link.close()
    if arguments.json:
        Console(sys.stdout).tell(dump(document_of(swept)))
    else:
        for text in said_of(swept):
            console.tell_paragraph(text)
    return _VERDICT_CODES[swept.is_right]


def _swept(line: FormatLine, console: Console) -> Swept:
    if line.wanted is None:
        raise UsageError(
            "--sweep must know speed and frame of the board: give --profile, or --speed and "
            "--format; --find-format finds them"
        )
    console.tell_paragraph(INTRODUCTION)
    presser = _Presser(line, console)
    return LineSweep(line.link, line.clock, line.wanted, presser, _StepTeller(console)).swept()


class _StepTeller:
    """Tells each step as it is done."""

    def __init__(self, console: Console) -> None:
        self._console = console

    def __call__(self, step: SweepStep) -> None:
        """Print one step."""
        self._console.tell(f"  {step.percent:+6.2f} %   {step.wrong} of {step.heard} wrong")


class _Presser:
    """Asks once for a key to come; presses it itself where the board is simulated."""

    def __init__(self, line: FormatLine, console: Console) -> None:
        self._line, self._console, self._has_asked = line, console, False

    def __call__(self, key: str, count: int) -> None:
        """Have the key come `count` times."""
        if not self._has_asked:
            self._console.tell_paragraph(PRESS.format(key=key))
            self._has_asked = True
        for _ in range(count):
            self._press(key)

    def _press(self, key: str) -> None:
        if self._line.type is None:
            return
        self._line.type(key)
        self._line.link.unsent()  # a simulated line finds what is pressed when it is looked at
        self._line.clock.sleep_until(self._line.clock.now_s() + PRESS_APART_S)


def said_of(swept: Swept) -> list[str]:
    """Return what was found, in paragraphs."""
    if swept.edges is None or swept.why_not:
        return [f"Nothing can be said of the clock: {swept.why_not}."]
    format, edges, bound = swept.format, swept.edges, bound_percent(swept.format)
    named = clock_ratio_near(1 + swept.clock_percent / 100)
    clock = f"The board's clock runs {_off(swept.clock_percent)}, within {WITHIN_PERCENT} %"
    if named:
        clock += f"; that is about what comes of {named.words}"
    return [
        f"{clock}.",
        f"Errors begin where this side is {-edges.slow_percent:.1f} % slower, and where it is "
        f"{edges.fast_percent:.1f} % faster.",
        f"A frame of {format.frame_bits} bits, {frame_text(format)}, must bear "
        f"{-bound.slow_percent:.1f} % and {bound.fast_percent:.1f} %: "
        f"{_beyond(-edges.slow_percent, -bound.slow_percent)} on the slow side, "
        f"{_beyond(edges.fast_percent, bound.fast_percent)} on the fast side.",
        _verdict_words(swept),
    ]


def _verdict_words(swept: Swept) -> str:
    allowed = f"one end should be {swept.allowed_percent} % off at most"
    if swept.is_right:
        return f"That is right: {allowed}."
    return f"That is too much: {allowed}. `termprobe baud` tells what a crystal and a divisor give."


def _off(percent: float) -> str:
    if percent < 0:
        return f"{-percent:.1f} % slow"
    return f"{percent:.1f} % fast"


def _beyond(edge: float, bound: float) -> str:
    if edge < bound:
        return f"{bound - edge:.1f} % short of it"
    return f"{edge - bound:.1f} % to spare"


def document_of(swept: Swept) -> dict[str, object]:
    """Return what was found, as plain data; offsets are of this side's rate, in per cent."""
    bound = bound_percent(swept.format)
    document: dict[str, object] = {
        "verdict": _WORDS[swept.is_right],
        "why_not": swept.why_not,
        "speed_baud": swept.format.speed_baud,
        "format": frame_text(swept.format),
        "bound_percent": list(bound),
        "steps": [step._asdict() for step in swept.steps],
    }
    if swept.edges and not swept.why_not:
        document["edges_percent"] = list(swept.edges)
        document["clock_percent"] = swept.clock_percent
    return document
