"""`termprobe session`: the full-screen companion at the bench, or plain prompts without one."""

import argparse
import contextlib
import io
import signal
import sys

from termprobe.cli.assembly import new_run
from termprobe.cli.bench import Bench, open_bench
from termprobe.cli.console import Console, is_full_screen
from termprobe.cli.full_screen import hold_full_screen
from termprobe.cli.key_hands import asked_hands
from termprobe.cli.observers import builder_at, simulated_hands
from termprobe.cli.request import (
    add_bench_arguments,
    add_stage_argument,
    bench_request,
    stage_choice,
)
from termprobe.cli.resume import kept, tell_resume
from termprobe.clock import SystemClock
from termprobe.errors import EXIT_INTERRUPTED, exit_code_of
from termprobe.journal.reading import read
from termprobe.runner.run import Run
from termprobe.session.plain import run_plain
from termprobe.verdict.ending import as_filed
from termprobe.verdict.judge import judge
from termprobe.verdict.model import RunVerdict


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Add the words of this command to `parser`."""
    add_bench_arguments(parser)
    add_stage_argument(parser)
    parser.add_argument(
        "--plain",
        action="store_true",
        help="plain prompts, line by line, as for screen readers; "
        "by itself where input or output is no terminal",
    )
    parser.epilog = (
        "Practice: --port sim: is a simulated board, sim:FAULT one with that fault, and\n"
        "sim:random one with a fault that is told only at the end."
    )


def run(arguments: argparse.Namespace) -> int:
    """Hold the session; return the exit code of its verdict, 130 where it was interrupted."""
    request = bench_request(arguments, stage_choice(arguments.stage))
    is_full = is_full_screen() and not arguments.plain
    with (
        contextlib.closing(open_bench(request, SystemClock())) as bench,
        kept(bench.path, "session", Console(sys.stderr)),
    ):
        is_interrupted = _hold(bench, is_full)
    verdict = _verdict(bench)
    told = sys.stdout if is_full else sys.stderr
    try:
        _say_end(bench, verdict, Console(told))
    except OSError:  # the console has gone; whatever else would be written to it goes nowhere
        sys.stdout = sys.stderr = io.StringIO()
    if is_interrupted:
        return EXIT_INTERRUPTED
    return exit_code_of(verdict.verdict)


def _hold(bench: Bench, is_full: bool) -> bool:
    """Hold the session; return whether it was interrupted."""
    if is_full:
        return hold_full_screen(bench)
    return _hold_plain(bench)


def _hold_plain(bench: Bench) -> bool:
    """Hold the session at plain prompts; return whether it was interrupted."""
    from termprobe.session.opening import resumed  # it loads pyte

    _interrupt_on_signals()
    console = Console(sys.stdout)
    run_ = _plain_run(bench, console)
    opening = resumed(bench.plan, bench.records, bench.changed_steps)
    try:
        run_plain(
            run_, console.tell, console.ask, lambda: bench.link_in(bench.link.format), opening
        )
    except KeyboardInterrupt:
        return True
    return False


def _interrupt_on_signals() -> None:
    """Let a console that is closed, and whoever ends the program, interrupt it as Ctrl-C does."""
    for name in ("SIGHUP", "SIGTERM"):
        if hasattr(signal, name):
            signal.signal(getattr(signal, name), signal.default_int_handler)


def _plain_run(bench: Bench, console: Console) -> Run:
    observers = [builder_at(console, bench.board), *simulated_hands(bench)]
    return new_run(bench, observers, asked_hands(console, bench.board))


def _verdict(bench: Bench) -> RunVerdict:
    records = read(bench.path).records
    return as_filed(judge(bench.plan, records), records)


def _say_end(bench: Bench, verdict: RunVerdict, console: Console) -> None:
    """Tell what the run has shown."""
    words = dict.fromkeys(step.verdict for step in verdict.steps)
    counts = ", ".join(f"{verdict.count(word)} {word}" for word in words)
    console.tell(f"{verdict.verdict}: {counts}")
    console.tell(f"Run file: {bench.path}    (termprobe report {bench.path})")
    tell_resume(verdict, bench.path, console)
