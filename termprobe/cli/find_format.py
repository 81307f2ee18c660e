"""Speed and frame found from pressed keys, at plain prompts."""

import argparse
import sys

from termprobe.cli.console import Console
from termprobe.cli.format_line import FormatLine, opened_format_line
from termprobe.errors import EXIT_FAILED, EXIT_INCOMPLETE, EXIT_PASSED
from termprobe.line.format_finding import PRESS_WAIT_S, FoundFormat, find_format
from termprobe.line.format_search import AskedPress
from termprobe.line.formats import WireFormat, wrong_straps
from termprobe.link.base import LineFormat
from termprobe.link.frame_text import frame_text
from termprobe.report.formats.json import dump

FIND_FORMAT_HELP = "find speed and frame of the board from a key pressed a few times"
MOST_SURE = 0.999
"""Nobody is surer than this of what somebody has pressed."""
LEAST_TOLD = 0.02
"""Classes that are less probable are not told."""
INTRODUCTION = (
    f"Press each key once when it is asked for, within {PRESS_WAIT_S:.0f} seconds, as a capital "
    "letter. The board must be switched on, and on line."
)
SILENT = (
    "Nothing came of any press. That is no matter of speed or frame: `termprobe link --silent` "
    "asks what it most often is."
)
SWEEP_TELLS = (
    "A clock that is off by 3 % or less reads the same: `termprobe link --sweep` measures it."
)


def find_format_at(arguments: argparse.Namespace) -> int:
    """Find the format of the board on `--port`; return the exit code."""
    console = Console(sys.stderr if arguments.json else sys.stdout)
    line = opened_format_line(arguments)
    try:
        console.tell_paragraph(INTRODUCTION)
        found = find_format(line.link, line.clock, _Prompter(console, line), line.wanted)
    finally:
        line.link.close()
    if arguments.json:
        Console(sys.stdout).tell(dump(document_of(found, line.wanted, line.speeds_baud)))
    else:
        for text in said_of(found, line.wanted, line.speeds_baud):
            console.tell_paragraph(text)
    return exit_code_of(found, line.wanted)


class _Prompter:
    """Asks for presses; presses itself where the board is simulated."""

    def __init__(self, console: Console, line: FormatLine) -> None:
        self._console, self._line, self._asked = console, line, 0

    def __call__(self, asked: AskedPress) -> None:
        """Ask for one press."""
        self._asked += 1
        said = f"{self._asked:2}  Press {asked.key} on the terminal, once."
        self._console.tell(f"{said}  (listening at {asked.baud} baud)")
        if self._line.type:
            self._line.type(asked.key)


def exit_code_of(found: FoundFormat, wanted: LineFormat | None) -> int:
    """Return 0 where the format is found and as it should be, 1 where it is another one, else 4."""
    if not found.is_sure:
        return EXIT_INCOMPLETE
    if wanted and wrong_straps(found.wire, wanted) or found.wire.is_inverted:
        return EXIT_FAILED
    return EXIT_PASSED


def said_of(
    found: FoundFormat, wanted: LineFormat | None, speeds_baud: tuple[int, ...] = ()
) -> list[str]:
    """Return what was found, in paragraphs."""
    refused = _refused(found)
    if found.is_silent:
        return [SILENT, *refused]
    if not found.is_sure:
        return [*_open(found, wanted), *refused]
    named = found.wire.best_format(wanted)
    how_sure = f"{min(found.probability, MOST_SURE):.1%} sure, {len(found.presses)} presses"
    said = [f"The board sends {_called(found.wire, named)}: {how_sure}."]
    if not found.wire.is_inverted:
        said.append(f"For other commands: {options_of(named)}")
    others = [_short(format) for format in _alike(found, named)]
    said.append(f"Not to be told from it by single characters: {', '.join(others)}. {SWEEP_TELLS}")
    return [*said, *_against(found.wire, wanted, speeds_baud), *refused]


def _against(
    wire: WireFormat, wanted: LineFormat | None, speeds_baud: tuple[int, ...]
) -> list[str]:
    """Return what is wrong against what is wanted."""
    if wanted is None:
        return []
    wrong = wrong_straps(wire, wanted, speeds_baud)
    if not wrong:
        return [f"That is as it should be: {_short(wanted)}."]
    return [f"It should be {_short(wanted)}. Wrong: {'; '.join(wrong)}."]


def _open(found: FoundFormat, wanted: LineFormat | None) -> list[str]:
    """Return what remains possible."""
    told = [
        f"{_called(wires[0], wires[0].best_format(wanted))} {odds:.0%}"
        for wires, odds in found.classes
        if odds >= LEAST_TOLD
    ]
    return [
        f"After {len(found.presses)} presses no format is sure. Left are: {'; '.join(told)}.",
        "Where another key was pressed than the one asked for, or two at once, try again.",
    ]


def _refused(found: FoundFormat) -> list[str]:
    """Return what is wrong with the adapter."""
    said = []
    if found.refused_baud:
        said.append(f"The adapter refuses {_rates(found.refused_baud)}, so that was left out.")
    if found.doubted_baud:
        said.append(
            f"Set to {_rates(found.doubted_baud)} the adapter seems to run at another rate: "
            "nothing explains what it heard. `termprobe link` times it with a loopback plug."
        )
    return said


def _rates(rates_baud: tuple[int, ...]) -> str:
    return f"{', '.join(map(str, rates_baud))} baud"


def _called(wire: WireFormat, format: LineFormat) -> str:
    return _short(format) + ", inverted" * wire.is_inverted


def _short(format: LineFormat) -> str:
    return f"{format.speed_baud} {frame_text(format)}"


def options_of(format: LineFormat) -> str:
    """Return `--speed 1200 --format 7E1`."""
    return f"--speed {format.speed_baud} --format {frame_text(format)}"


def _alike(found: FoundFormat, named: LineFormat) -> list[LineFormat]:
    """Return what nothing tells from the format that is named."""
    wires = found.classes[0][0]
    every = [format for wire in wires for format in wire.line_formats()]
    return [format for format in every if format != named]


def document_of(
    found: FoundFormat, wanted: LineFormat | None, speeds_baud: tuple[int, ...] = ()
) -> dict[str, object]:
    """Return what was found, as plain data."""
    named = found.wire.best_format(wanted)
    wrong = wrong_straps(found.wire, wanted, speeds_baud) if wanted else ()
    return {
        "found": found.is_sure,
        "silent": found.is_silent,
        "speed_baud": named.speed_baud,
        "format": frame_text(named),
        "inverted": found.wire.is_inverted,
        "options": options_of(named),
        "probability": found.probability,
        "alike": [_short(format) for format in _alike(found, named)],
        "wrong": list(wrong),
        "presses": len(found.presses),
        "refused_baud": list(found.refused_baud),
        "doubted_baud": list(found.doubted_baud),
        "classes": [
            {"format": _called(wires[0], wires[0].best_format(wanted)), "probability": odds}
            for wires, odds in found.classes
            if odds >= LEAST_TOLD
        ],
    }
