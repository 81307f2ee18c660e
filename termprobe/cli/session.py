"""`termprobe session`: the full-screen companion at the bench, or plain prompts without one."""

import argparse
import contextlib
import io
import signal
import sys
from collections.abc import Callable

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
from termprobe.cli.sound import add_sound_argument
from termprobe.clock import SystemClock
from termprobe.errors import EXIT_INTERRUPTED, LinkError, exit_code_of
from termprobe.journal.reading import read
from termprobe.link.base import Link
from termprobe.report.walk_words import of_answer_before
from termprobe.runner.run import Run
from termprobe.runner.told import GoneBack, RunEvent
from termprobe.session.plain import run_plain
from termprobe.verdict.judge import judge
from termprobe.verdict.model import RunVerdict


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Add the words of this command to `parser`."""
    add_bench_arguments(parser)
    add_stage_argument(parser)
    add_sound_argument(parser)
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
        is_interrupted = _hold(bench, is_full, arguments.mute)
    verdict = _verdict(bench)
    told = sys.stdout if is_full else sys.stderr
    try:
        _say_end(bench, verdict, Console(told))
    except OSError:  # the console has gone; whatever else would be written to it goes nowhere
        sys.stdout = sys.stderr = io.StringIO()
    if is_interrupted:
        return EXIT_INTERRUPTED
    return exit_code_of(verdict.verdict)


def _hold(bench: Bench, is_full: bool, muted: list[str]) -> bool:
    """Hold the session; return whether it was interrupted."""
    if is_full:
        return hold_full_screen(bench, muted=muted)
    return _hold_plain(bench)


def _hold_plain(bench: Bench) -> bool:
    """Hold the session at plain prompts; return whether it was interrupted."""
    from termprobe.session.opening import BY_GOING_BACK, resumed  # it loads pyte

    _interrupt_on_signals()
    console = Console(sys.stdout)
    run_ = _plain_run(bench, console)
    opening = resumed(bench.plan, bench.records, bench.changed_steps, BY_GOING_BACK)
    try:
        run_plain(run_, console.tell, console.ask, _reopening(bench), opening)
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


def _interrupt_on_signals() -> None:
    """Let a console that is closed, and whoever ends the program, interrupt it as Ctrl-C does."""
    for name in ("SIGHUP", "SIGTERM"):
        if hasattr(signal, name):
            signal.signal(getattr(signal, name), signal.default_int_handler)


def _plain_run(bench: Bench, console: Console) -> Run:
    observers = [builder_at(console, bench.board), *simulated_hands(bench)]

    def listen(event: RunEvent) -> None:
        if isinstance(event, GoneBack):
            console.tell(f"\n{of_answer_before(event.verdict)}.")

    return new_run(bench, observers, asked_hands(console, bench.board), listen)


def _verdict(bench: Bench) -> RunVerdict:
    return judge(bench.plan, read(bench.path).records)


def _say_end(bench: Bench, verdict: RunVerdict, console: Console) -> None:
    """Tell what the run has shown."""
    words = dict.fromkeys(step.verdict for step in verdict.steps)
    counts = ", ".join(f"{verdict.count(word)} {word}" for word in words)
    console.tell(f"{verdict.verdict}: {counts}")
    console.tell(f"Run file: {bench.path}    (termprobe report {bench.path})")
    tell_resume(verdict, bench.path, console)
