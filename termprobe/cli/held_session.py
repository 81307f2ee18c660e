"""A session at the bench, full-screen or at plain prompts, held for the commands that need one."""

import argparse
import contextlib
import io
import sys
from collections.abc import Callable, Mapping

from termprobe.cli.asked_start import asked, same_again
from termprobe.cli.assembly import new_run
from termprobe.cli.bench import Bench, open_bench
from termprobe.cli.console import Console, is_full_screen
from termprobe.cli.either_keyboard import either_keyboard
from termprobe.cli.fault_decision import asked_at
from termprobe.cli.foreseen import predictor
from termprobe.cli.foresight import foresight_at
from termprobe.cli.full_screen import hold_full_screen
from termprobe.cli.key_hands import asked_hands
from termprobe.cli.last_answers import remember
from termprobe.cli.observers import builder_of, simulated_hands
from termprobe.cli.recorded import Recorded, load_run
from termprobe.cli.report_page import leave_page
from termprobe.cli.request import (
    bench_request,
    stage_choice,
)
from termprobe.cli.resume import kept, resume_command, tell_resume
from termprobe.cli.shell_words import command_line
from termprobe.clock import SystemClock
from termprobe.errors import EXIT_INTERRUPTED, LinkError
from termprobe.journal.asked_again import AskedAgain
from termprobe.journal.attention import AttentionChecked
from termprobe.link.base import Link
from termprobe.report.after_words import new_faults_in_words
from termprobe.report.key_findings import key_lines
from termprobe.report.record import RunReport
from termprobe.report.walk_words import LOOK_ONCE_MORE, SEARCHING, of_answer_before, of_check
from termprobe.runner.run import Run
from termprobe.runner.told import GoneBack, RunEvent, SearchBegun
from termprobe.session.plain import run_plain
from termprobe.verdict.counts import counts


def hold_session(arguments: argparse.Namespace) -> int:
    """Hold the session; return the exit code of its verdict, 130 where it was interrupted."""
    answers = asked(arguments, Console(sys.stderr))
    vars(arguments).update(answers)
    request = bench_request(arguments, stage_choice(arguments.stage, arguments.skip_stage))
    is_full = is_full_screen() and not arguments.plain
    with contextlib.closing(open_bench(request, SystemClock())) as bench:
        going_on = resume_command(arguments, bench.path)
        _remember(arguments, answers)
        with kept(bench.path, "session", going_on, Console(sys.stderr)):
            is_interrupted = _hold(bench, is_full, arguments.mute, going_on)
    recorded = load_run(bench.path)
    report = recorded.report
    told = sys.stdout if is_full else sys.stderr
    try:
        _say_end(recorded, going_on, Console(told))
    except OSError:  # the console has gone; whatever else would be written to it goes nowhere
        sys.stdout = sys.stderr = io.StringIO()
    if is_interrupted:
        return EXIT_INTERRUPTED
    return report.verdict.exit_code


def _remember(arguments: argparse.Namespace, answers: Mapping[str, str]) -> None:
    """Keep what was asked for until the next time, and say how to be asked nothing."""
    if answers:
        remember(answers)
        Console(sys.stderr).tell(f"\nThe same again:\n  {same_again(arguments)}")


def _hold(bench: Bench, is_full: bool, muted: list[str], going_on: str) -> bool:
    """Hold the session; return whether it was interrupted."""
    if is_full:
        return hold_full_screen(bench, muted=muted)
    return _hold_plain(bench, going_on)


def _hold_plain(bench: Bench, going_on: str) -> bool:
    """Hold the session at plain prompts; return whether it was interrupted."""
    from termprobe.cli.full_screen import opening_of  # it loads pyte

    console = Console(sys.stdout)
    run_ = _plain_run(bench, console)
    opening = opening_of(bench)
    try:
        decide = asked_at(console, going_on)
        run_plain(run_, console.tell, console.ask, _reopening(bench), opening, decide)
    except KeyboardInterrupt:
        return True
    return False


def _reopening(bench: Bench) -> Callable[[], Link]:
    """Return what gives a new link each time, the one before let go of."""
    links = [bench.link]

    def reopen() -> Link:
        links.pop().close()
        try:
            links.append(bench.link_in(bench.link.format))
        except LinkError:
            links.append(bench.link)
            raise
        return links[0]

    return reopen


def _plain_run(bench: Bench, console: Console) -> Run:
    from termprobe.cli.prompt_foresight import PromptForesight  # it loads pyte

    builder = builder_of(bench, console)
    observers = [builder, *simulated_hands(bench)]

    def listen(event: RunEvent) -> None:
        match event:
            case AskedAgain(step=step_id):
                console.tell(f"\n{step_id}: {LOOK_ONCE_MORE}.")
            case GoneBack(verdict):
                console.tell(f"\n{of_answer_before(verdict)}.")
            case AttentionChecked():
                console.tell(f"\n{of_check(event)}.")
            case SearchBegun():
                console.tell(SEARCHING)

    hands = asked_hands(console, bench.board)
    run_ = new_run(bench, observers, hands, listen, foresight=foresight_at(bench))
    builder.foreseer = PromptForesight(run_, lambda: predictor(bench))
    if bench.board is None:
        builder.answer_keys = either_keyboard(run_, console)
    return run_


def _tell_keyboard(report: RunReport, console: Console) -> None:
    """Tell what the presses of keys have shown, where there were any."""
    if report.keys is not None:
        lines = key_lines(report.keys, report.plan, report.verdict, report.scope.left_out)
        console.tell("\n".join([*lines, ""]))


def _tell_cause(report: RunReport, console: Console) -> None:
    """Tell the first cause that was found, behind the caution where it says what to probe."""
    from termprobe.report.facts.cause_lines import cause_lines
    from termprobe.report.suspects import CAUTION

    first = next(iter(cause_lines(report)), None)
    if first is None or not first.fault:
        return
    if first.probe:
        console.tell_paragraph(CAUTION)
    console.tell_paragraph(f"Cause: {first.told}")


def _say_end(recorded: Recorded, going_on: str, console: Console) -> None:
    """Tell what the run has shown, and leave its page beside its file."""
    from termprobe.report.formats.text import headline
    from termprobe.report.scope_words import limits

    report, path = recorded.report, recorded.path
    _tell_keyboard(report, console)
    console.tell(headline(report))
    for text in filter(None, [new_faults_in_words(report.changes)]):
        console.tell(text)
    _tell_cause(report, console)
    for text in limits(report.verdict, report.scope, report.not_covered):
        console.tell(text)
    console.tell(", ".join(counts(report.verdict.steps).in_words()))
    console.tell(f"Run file: {path}    ({command_line(['termprobe', 'report', path])})")
    leave_page(recorded, console)
    tell_resume(report.verdict, going_on, console)
