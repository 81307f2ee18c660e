"""`termprobe explain`: what would explain what somebody noticed, without a run."""

import argparse
import sys
from typing import TYPE_CHECKING

from termprobe.cli.line_log import add_log_option, sent_in
from termprobe.cli.output import add_printing_argument
from termprobe.cli.patience import Patience
from termprobe.cli.symptom_words import print_symptom_words
from termprobe.cli.told_bytes import told_bytes
from termprobe.cli.told_keys import keys_told
from termprobe.errors import EXIT_FAILED, EXIT_PASSED, UsageError
from termprobe.profile import load as profiles
from termprobe.profile.model import Profile
from termprobe.report.formats.json import dump
from termprobe.report.symptom_page import symptom_document, symptom_page
from termprobe.verdict.model import FAIL

if TYPE_CHECKING:
    from termprobe.diagnosis.symptom import Symptom

WHAT_FOR = "Trying each fault on what was noticed"
EPILOG = (
    "TEXT is plain text, or bytes in the notation of profiles where it is written in\n"
    'that way: "AB" CR LF 7Fh. Where: every other line; odd rows; right half; the\n'
    "last 16 columns; rows 2-9; row 5, column 40; everything but the top line; and\n"
    "more, by comma where it is both. Rows and columns count from 0 if you do not add\n"
    "counting from 1. Noticed: left dot column missing; every second dot row doubled;\n"
    "upper half drawn twice; cursor missing; screen blank but cursor there; bell\n"
    "silent; rolling picture; snow; and more: --words prints all that is understood.\n"
    "One character or dot in all that is written down may be a slip. The exit code is\n"
    "0 where nothing is wrong, 1 where something is."
)


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Add the words of this command to `parser`."""
    parser.add_argument("--profile", metavar="P", required=True, help="id or path of the profile")
    _add_list(parser, "--sent", "TEXT", "what was sent to the board")
    _add_list(
        parser, "--seen", "TEXT", "what its screen showed of it; one for each --sent, in order"
    )
    add_log_option(parser, "what was sent, from this log of `monitor`; give one --seen for it")
    parser.add_argument("--where", metavar="WORDS", help="where on the screen it is wrong")
    _add_list(
        parser,
        "--drawn",
        "A=ROWS",
        "how a character is drawn: A=.###./#...#/..., # for each lit dot, / between rows",
    )
    _add_list(
        parser,
        "--noticed",
        "WORDS",
        "what is wrong with how all characters are drawn, with the cursor, the bell or the picture",
    )
    parser.add_argument(
        "--keys",
        metavar='"A>C B>B"',
        default="",
        help="keys pressed, and what came of each: A>C, shift A > a, return > nothing",
    )
    parser.add_argument("--json", action="store_true", help="print one JSON document")
    add_printing_argument(
        parser,
        "--words",
        print_symptom_words,
        "print all words that --noticed and --where understand and end",
    )
    parser.epilog = EPILOG


def _add_list(parser: argparse.ArgumentParser, option: str, metavar: str, told: str) -> None:
    """Add an option that may be given several times."""
    parser.add_argument(option, metavar=metavar, action="append", default=[], help=told)


def run(arguments: argparse.Namespace) -> int:
    """Print what would explain the symptom; return whether there is one, as an exit code."""
    from termprobe.diagnosis.explain import explain

    profile = profiles.load(arguments.profile)
    symptom = symptom_of(arguments, profile)
    patience = Patience(WHAT_FOR, sys.stderr)
    try:
        found = explain(profile, symptom, told=patience.told)
    finally:
        patience.end()
    if arguments.json:
        print(dump(symptom_document(found)))
    else:
        print("\n".join(symptom_page(found)))
    return EXIT_FAILED if found.verdict == FAIL else EXIT_PASSED


def symptom_of(arguments: argparse.Namespace, profile: Profile) -> "Symptom":
    """Return what was noticed; raise UsageError where it cannot be read, or is nothing."""
    from termprobe.diagnosis.area import Reading, readings_of
    from termprobe.diagnosis.bell_symptom import BellSilent, is_of_silent_bell
    from termprobe.diagnosis.dot_symptom import DotSymptom, drawn_character
    from termprobe.diagnosis.noticed_words import read_noticed
    from termprobe.diagnosis.symptom import Symptom, TextSymptom
    from termprobe.diagnosis.unmodelled import Unmodelled, comes_twice, of_texts

    sent, seen = [told_bytes(text) for text in arguments.sent], arguments.seen
    if arguments.log:
        sent.append(sent_in(arguments.log))
    if len(sent) != len(seen):
        raise UsageError(
            f"--sent and --seen must come in pairs, not {len(sent)} of one and {len(seen)} of the "
            "other; give what was seen after each text that was sent"
        )
    pairs = list(zip(sent, map(told_bytes, seen), strict=True))
    texts = tuple(TextSymptom(*pair) for pair in pairs if not comes_twice(*pair))
    keys = keys_told(arguments.keys, profile)
    silent = [words for words in arguments.noticed if is_of_silent_bell(words)]
    noticed = [read_noticed(words, profile) for words in arguments.noticed if words not in silent]
    unmodelled = tuple(one for one in (*noticed, of_texts(pairs)) if isinstance(one, Unmodelled))
    dots: tuple[DotSymptom, ...] = tuple(drawn_character(told, profile) for told in arguments.drawn)
    dots += tuple(one for one in noticed if not isinstance(one, Unmodelled))
    bell = BellSilent(not (texts or dots or arguments.where)) if silent else None
    area: tuple[Reading, ...] = ()
    if arguments.where:
        area = readings_of(arguments.where, profile.display.rows, profile.display.columns)
    symptom = Symptom(texts, area, keys, dots, bell, unmodelled)
    if not (symptom.is_modelled or unmodelled):
        raise UsageError(
            "explain must be told --sent and --seen, --where, --drawn, --noticed or --keys"
        )
    return symptom
