"""`termprobe coverage`: which faults of a board a script shows, and which it misses."""

import argparse
import contextlib
import json
import math
import sys
from collections.abc import Sequence
from functools import partial
from typing import TYPE_CHECKING

from termprobe import yamlfile
from termprobe.cli.covering import covered
from termprobe.cli.findings_told import tell_findings
from termprobe.cli.opened_line import line_format
from termprobe.cli.watching import on_each_save
from termprobe.clock import SystemClock
from termprobe.errors import EXIT_PASSED, FileError, TermprobeError, UsageError
from termprobe.findings import nearest
from termprobe.notation import visible
from termprobe.plan.effort import effort, pressing_s, step_ms
from termprobe.profile import load as profiles
from termprobe.script import load as scripts

if TYPE_CHECKING:
    from termprobe.diagnosis.coverage import Coverage
    from termprobe.report.coverage_document import CoverageTold

STEPS, SECONDS = WEIGHED_BY = ("steps", "seconds")


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Add the words of this command to `parser`."""
    parser.add_argument("--profile", metavar="P", required=True, help="id or path of the profile")
    parser.add_argument("--script", metavar="S", required=True, help="id or path of the script")
    parser.add_argument(
        "--miss",
        metavar="CLASS=RATE",
        action="append",
        default=[],
        help="how many differences of a class a builder misses, 0 to 1; may be given several times",
    )
    parser.add_argument(
        "--weigh",
        choices=WEIGHED_BY,
        default=STEPS,
        help="what the smallest set of steps has least of (default: steps)",
    )
    parser.add_argument(
        "--watch",
        action="store_true",
        help="show it again whenever the script or the profile is saved; Ctrl-C ends it",
    )
    parser.add_argument("--json", action="store_true", help="print one JSON document")
    parser.epilog = (
        "Faults are those of `termprobe sim --faults`. A CLASS is screen, line, cells,\n"
        "dots, cursor or sound: how much of the screen differs, or what alone does. By\n"
        "default the rates are screen=0.05, line=0.11, cells=0.23, dots=0.23, cursor=0.23\n"
        "and sound=0.3."
    )


def run(arguments: argparse.Namespace) -> int:
    """Print what the script shows of the faults; return the exit code."""
    _missed(arguments.miss)
    if arguments.watch:
        return _watch(arguments)
    told = _told(arguments)
    if arguments.json:
        from termprobe.report.coverage_document import coverage_document

        print(json.dumps(coverage_document(told), indent=1))
    else:
        from termprobe.report.coverage_page import coverage_page

        print(coverage_page(told))
    return EXIT_PASSED


def _watch(arguments: argparse.Namespace) -> int:
    """Show the page whenever one of the files is saved, until Ctrl-C; return the exit code."""
    if arguments.json:
        raise UsageError("--watch prints pages one after another; leave out --json")
    named = ((arguments.profile, "profiles"), (arguments.script, "scripts"))
    paths = [yamlfile.find(*each) for each in named]
    for path in paths:
        yamlfile.read_text(path)
    pages = _Pages(arguments)
    with contextlib.suppress(KeyboardInterrupt):
        on_each_save(paths, pages.show, SystemClock())
    return EXIT_PASSED


class _Pages:
    """Pages of one script and profile, each with what is new since the one before."""

    def __init__(self, arguments: argparse.Namespace) -> None:
        self._arguments = arguments
        self._before: Coverage | None = None

    def show(self) -> None:
        """Print the next page, or what is wrong with the files."""
        try:
            self._print_page()
        except FileError as error:
            tell_findings(error)
        except TermprobeError as error:
            print(visible(str(error)), file=sys.stderr)
        print("\nWatching both files; Ctrl-C ends it\n", flush=True)

    def _print_page(self) -> None:
        from termprobe.report.coverage_page import brief_page

        told = _told(self._arguments)
        print(brief_page(told, self._before))
        self._before = told.found


def _told(arguments: argparse.Namespace) -> "CoverageTold":
    from termprobe.cli.kept_dictionary import kept_dictionary
    from termprobe.diagnosis.coverage import coverage_of, one_each
    from termprobe.plan.compile import compile_plan  # it loads pyte
    from termprobe.report.coverage_document import CoverageTold

    path = yamlfile.find(arguments.profile, "profiles")
    text = yamlfile.read_text(path)
    profile = profiles.parse(text, str(path))
    plan = compile_plan(profile, scripts.load(arguments.script), arguments.script)
    dictionary = kept_dictionary(plan, profile, text)
    plan = covered(plan, profile, text)
    character_s, miss = line_format(profile).character_s, _missed(arguments.miss)
    cost_of = one_each
    if arguments.weigh == SECONDS:
        cost_of = partial(step_ms, character_s=character_s)
    cost = effort(plan.steps, character_s)
    return CoverageTold(
        found=coverage_of(dictionary, plan, profile, miss, cost_of),
        plan=plan,
        effort=cost,
        seconds=cost.sending_s + cost.looking_s + pressing_s(plan.steps),
        miss=miss,
        weigh=arguments.weigh,
    )


def _missed(given: Sequence[str]) -> dict[str, float]:
    """Return the rate of each class, of those `given` the last; raise UsageError."""
    from termprobe.diagnosis.visibility import USUAL_MISS

    rates = dict(USUAL_MISS)
    for text in given:
        name, _, rate = text.partition("=")
        if name not in rates:
            raise UsageError(
                f"--miss must begin with one of {', '.join(rates)}, as in cells=0.3, "
                f'not "{visible(text)}"{nearest(name, rates)}'
            )
        rates[name] = _rate(text, rate)
    return rates


def _rate(text: str, rate: str) -> float:
    try:
        found = float(rate)
    except ValueError:
        found = math.nan
    if not 0 <= found <= 1:
        raise UsageError(
            f'--miss must end with a number from 0 to 1, as in cells=0.3, not "{visible(text)}"'
        )
    return found
