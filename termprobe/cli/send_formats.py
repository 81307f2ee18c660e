"""A text sent in each speed and frame, and the builder asked which one was readable."""

import argparse
import re
import sys
from collections.abc import Collection, Sequence

from termprobe.cli.console import Console
from termprobe.cli.find_format import options_of
from termprobe.cli.format_line import FormatLine, opened_format_line
from termprobe.errors import EXIT_FAILED, EXIT_INCOMPLETE, EXIT_PASSED
from termprobe.line.format_sending import ReadAs, SentFormat, boards_that_read, send_formats
from termprobe.line.formats import wrong_straps
from termprobe.link.base import LineFormat
from termprobe.link.frame_text import frame_text
from termprobe.notation import visible
from termprobe.report.formats.json import dump

SEND_FORMATS_HELP = (
    "for a board without a keyboard: send a text in each speed and frame, which names it"
)
INTRODUCTION = (
    "Watch the screen of the board. In each speed and frame a line is sent that names it, such as "
    "`12 300 7E1`, twice; in wrong ones something else shows, or nothing. Note the numbers of "
    "those that read right, whole: there may be several. The slow ones come last. It takes about "
    "two minutes."
)
QUESTION = "Which numbers were readable, whole? (such as 12 or 12 13; ENTER for none) "
NONE_READ = (
    "None was readable. Where the screen showed something else at some of them, the clock of the "
    "board may be off: `termprobe baud` tells what it should be. Where nothing ever changed, go on "
    "with `termprobe link --silent`."
)
NO_SUCH_BOARD = (
    "No board that is set to one of these reads just these. Look again: send once more, and count "
    "those lines alone in which every character is right."
)
IGNORES = (
    "This board takes no notice of wrong frames, and so it shows more than the one it is set to."
)


def send_formats_at(arguments: argparse.Namespace) -> int:
    """Send in all settings, ask, and say what the board has; return the exit code."""
    console = Console(sys.stderr if arguments.json else sys.stdout)
    line = opened_format_line(arguments)
    try:
        console.tell_paragraph(INTRODUCTION)
        told = _SettingTeller(console, line)
        sent, refused = send_formats(line.link, line.clock, told)
        told.tell_screen()
        readable = _readable(console, sent)
    finally:
        line.link.close()
    boards = boards_that_read(sent, readable or ())
    if arguments.json:
        Console(sys.stdout).tell(dump(_document(readable, boards, refused, line)))
    else:
        for text in said_of(readable, boards, refused, line.wanted, line.speeds_baud):
            console.tell_paragraph(text)
    return exit_code_of(boards, line.wanted)


class _SettingTeller:
    """Tells each setting as it is sent, and of a simulated board what its screen then shows."""

    def __init__(self, console: Console, line: FormatLine) -> None:
        self._console, self._shown, self._has_sent = console, line.shown, False

    def __call__(self, setting: SentFormat) -> None:
        """Tell one setting that is about to be sent."""
        if self._has_sent:
            self.tell_screen()
        self._has_sent = True
        self._console.tell(f"  {setting.label}")

    def tell_screen(self) -> None:
        """Tell what a simulated board shows of what was sent last."""
        if self._shown:
            self._console.tell(f"      the screen shows: {visible(self._shown())}")


def _readable(console: Console, sent: Sequence[SentFormat]) -> frozenset[int] | None:
    """Return the numbers that are typed, asked for until all are some; None where nobody types."""
    known = {setting.number for setting in sent}
    while True:
        try:
            typed = console.ask(QUESTION)
        except EOFError:
            return None
        numbers = numbers_of(typed)
        if numbers is not None and numbers <= known:
            return numbers
        console.tell(f"They must be numbers from 1 to {max(known)}, with spaces between.")


def numbers_of(typed: str) -> frozenset[int] | None:
    """Return the numbers that are typed, None where something else is."""
    words = [word for word in re.split(r"[\s,]+", typed) if word]
    if all(word.isascii() and word.isdigit() for word in words):
        return frozenset(map(int, words))
    return None


def said_of(
    readable: Collection[int] | None,
    boards: Sequence[ReadAs],
    refused: Sequence[int],
    wanted: LineFormat | None,
    speeds_baud: tuple[int, ...] = (),
) -> list[str]:
    """Return what the answer says of the board, in paragraphs."""
    said = []
    if refused:
        rates = ", ".join(map(str, refused))
        said.append(f"The adapter refuses {rates} baud, so nothing was sent in these.")
    if not readable:
        return [*said, NONE_READ]
    if not boards:
        return [*said, NO_SUCH_BOARD]
    named = _formats(boards, wanted)
    words = ", or ".join(_short(format) for format in named)
    said.append(f"The board has {words}; one stop bit or two makes no difference to it.")
    if not boards[0].shows_errors:
        said.append(IGNORES)
    said.append(f"For other commands: {options_of(named[0])}")
    return [*said, *_against(boards, wanted, speeds_baud)]


def _against(
    boards: Sequence[ReadAs], wanted: LineFormat | None, speeds_baud: tuple[int, ...]
) -> list[str]:
    if wanted is None:
        return []
    if _is_as_wanted(boards, wanted):
        return [f"That is as it should be: {_short(wanted)}."]
    wrong = "; ".join(wrong_straps(boards[0].wire, wanted, speeds_baud))
    return [f"It should be {_short(wanted)}. Wrong: {wrong}."]


def _is_as_wanted(boards: Sequence[ReadAs], wanted: LineFormat) -> bool:
    return any(not wrong_straps(board.wire, wanted) for board in boards)


def _formats(boards: Sequence[ReadAs], wanted: LineFormat | None) -> list[LineFormat]:
    """Return what the board may be set to, what it should be set to first."""
    formats = [board.wire.best_format(wanted) for board in boards]
    return sorted(dict.fromkeys(formats), key=lambda format: format != wanted)


def exit_code_of(boards: Sequence[ReadAs], wanted: LineFormat | None) -> int:
    """Return 0 where the board may be set as it should be, 1 where not, 4 where none is known."""
    if not boards:
        return EXIT_INCOMPLETE
    if wanted and not _is_as_wanted(boards, wanted):
        return EXIT_FAILED
    return EXIT_PASSED


def _document(
    readable: Collection[int] | None,
    boards: Sequence[ReadAs],
    refused: Sequence[int],
    line: FormatLine,
) -> dict[str, object]:
    named = _formats(boards, line.wanted)
    return {
        "readable": sorted(readable or ()),
        "formats": [_short(format) for format in named],
        "options": [options_of(format) for format in named],
        "refused_baud": list(refused),
    }


def _short(format: LineFormat) -> str:
    return f"{format.speed_baud} {frame_text(format)}"
