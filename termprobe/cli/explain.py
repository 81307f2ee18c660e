"""`termprobe explain`: what would explain what somebody noticed, without a run."""

import argparse
from typing import TYPE_CHECKING

from termprobe.cli.line_log import add_log_option, sent_in
from termprobe.errors import EXIT_FAILED, EXIT_PASSED, UsageError
from termprobe.notation import NotationError, parse
from termprobe.profile import load as profiles
from termprobe.profile.model import Profile
from termprobe.report.formats.json import dump
from termprobe.report.suspects import diagnosis_document, symptom_lines
from termprobe.verdict.model import FAIL

if TYPE_CHECKING:
    from termprobe.diagnosis.symptom import Symptom


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Add the words of this command to `parser`."""
    parser.add_argument("--profile", metavar="P", required=True, help="id or path of the profile")
    parser.add_argument(
        "--sent", metavar="TEXT", action="append", default=[], help="what was sent to the board"
    )
    parser.add_argument(
        "--seen",
        metavar="TEXT",
        action="append",
        default=[],
        help="what its screen showed of it; one for each --sent, in order",
    )
    add_log_option(parser, "what was sent, from this log of `monitor`; give one --seen for it")
    parser.add_argument("--where", metavar="WORDS", help="where on the screen it is wrong")
    parser.add_argument(
        "--keys", metavar='"A>C B>B"', default="", help="keys pressed, and what came of each"
    )
    parser.add_argument("--json", action="store_true", help="print one JSON document")
    parser.epilog = (
        "TEXT is plain text, or bytes in the notation of profiles where it is written in\n"
        'that way: "AB" CR LF 7Fh. Where: everywhere; odd or even rows or columns; top,\n'
        "bottom, left or right half; row 5; rows 2-9; column 40; two of them joined by a\n"
        "comma. Rows and columns count from 0. One character in all that is written down\n"
        "may be a slip. The exit code is 0 where nothing is wrong, 1 where something is."
    )


def run(arguments: argparse.Namespace) -> int:
    """Print what would explain the symptom; return whether there is one, as an exit code."""
    from termprobe.diagnosis.explain import explain

    profile = profiles.load(arguments.profile)
    found = explain(profile, _symptom(arguments, profile))
    if arguments.json:
        print(dump(diagnosis_document(found)))
    else:
        print("\n".join(symptom_lines(found)))
    return EXIT_FAILED if found.verdict == FAIL else EXIT_PASSED


def _symptom(arguments: argparse.Namespace, profile: Profile) -> "Symptom":
    """Return what was noticed; raise UsageError where it cannot be read, or is nothing."""
    from termprobe.diagnosis.area import area_of
    from termprobe.diagnosis.symptom import Symptom, TextSymptom

    sent, seen = [_bytes_of(text) for text in arguments.sent], arguments.seen
    if arguments.log:
        sent.append(sent_in(arguments.log))
    if len(sent) != len(seen):
        raise UsageError(
            f"--sent and --seen must come in pairs, not {len(sent)} of one and {len(seen)} of the "
            "other; give what was seen after each text that was sent"
        )
    pairs = zip(sent, map(_bytes_of, seen), strict=True)
    texts = tuple(TextSymptom(*pair) for pair in pairs)
    keys = tuple(map(_pressed, arguments.keys.split()))
    if not (texts or keys or arguments.where):
        raise UsageError("explain must be told --sent and --seen, --where or --keys")
    area = None
    if arguments.where:
        area = area_of(arguments.where, profile.display.rows, profile.display.columns)
    return Symptom(texts, area, keys)


def _bytes_of(text: str) -> bytes:
    """Return the bytes that `text` stands for: in the notation, or as it is; raise UsageError."""
    try:
        return parse(text)
    except NotationError:
        pass
    try:
        return text.encode("ascii")
    except UnicodeEncodeError:
        raise UsageError(
            f"TEXT must be plain ASCII, or bytes as names (ESC), quoted text or hexadecimal, "
            f"not {text!r}"
        ) from None


def _pressed(word: str) -> tuple[bytes, bytes]:
    """Return (code of the key, codes that came) of a word such as `A>C`; raise UsageError."""
    pressed, arrow, came = word[:1], word[1:2], word[2:]
    if arrow != ">":
        pressed, arrow, came = word.partition(">")
    if not pressed or not arrow:
        raise UsageError(f'--keys must be words such as A>C or CR>LF, not "{word}"')
    return _bytes_of(pressed), _bytes_of(came)
