"""`termprobe keys`: walks the board's keyboard key by key, and concludes which line is at fault."""

import argparse
import contextlib
import json
import sys

from termprobe.cli.assembly import new_run, unwatched_clock
from termprobe.cli.bench import Bench, open_bench
from termprobe.cli.console import Console, is_full_screen, is_typed_at
from termprobe.cli.full_screen import hold_full_screen
from termprobe.cli.going_on import tell_of_link
from termprobe.cli.key_choice import (
    ALL,
    KEYBOARD_SCRIPT,
    QUICK,
    TELLING,
    chosen_presses,
    key_choice,
    keyboard_of,
)
from termprobe.cli.key_hands import pressing_on
from termprobe.cli.key_lines import HELP_LINE, WalkLines, typed_command, typed_decision
from termprobe.cli.key_report import key_report
from termprobe.cli.recorded import load_run
from termprobe.cli.report_page import leave_page
from termprobe.cli.request import Choice, add_bench_arguments, bench_request
from termprobe.cli.resume import kept, resume_command, tell_resume
from termprobe.cli.sound import OF_PRESSES, add_sound_argument
from termprobe.cli.task import unnamed
from termprobe.clock import Clock, SystemClock
from termprobe.errors import EXIT_PASSED, UsageError
from termprobe.folding import folded
from termprobe.observer.press import PRESS_LIMIT_S
from termprobe.plan.model import Press
from termprobe.profile.load import load
from termprobe.profile.model import Keyboard
from termprobe.report.after_words import order_in_words
from termprobe.report.chord_words import no_chords_in_words
from termprobe.runner.key_walk import FREE, LISTED, ORDERS, KeyWalk
from termprobe.runner.run import Run
from termprobe.runner.sitting import sitting

LONGEST_WAIT_S = 3600
TOLD_WIDTH = 80


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Add the words of this command to `parser`."""
    add_bench_arguments(parser, has_script=False)
    parser.add_argument(
        "--order",
        choices=ORDERS,
        default=LISTED,
        help="listed: each key is asked for; free: any key in any order until all have been "
        "pressed (default: listed)",
    )
    parser.add_argument(
        "--wait",
        metavar="SECONDS",
        type=_seconds,
        help="a press that does not come in this time is missing; without it `keys` waits",
    )
    few = parser.add_mutually_exclusive_group()
    few.add_argument(
        "--quick",
        dest="which",
        action="store_const",
        const=QUICK,
        default=ALL,
        help="only the fewest presses that show every fault of the code and matrix lines",
    )
    few.add_argument(
        "--telling",
        dest="which",
        action="store_const",
        const=TELLING,
        help="only the fewest presses that also tell these faults apart; to find them takes "
        "some seconds",
    )
    parser.add_argument(
        "--chords",
        action="store_true",
        help="afterwards three keys at a time, to check each diode of the matrix",
    )
    _add_output_arguments(parser)
    parser.set_defaults(script=KEYBOARD_SCRIPT)


def _add_output_arguments(parser: argparse.ArgumentParser) -> None:
    add_sound_argument(parser)
    parser.add_argument(
        "--list",
        action="store_true",
        help="list the presses in the order in which they are asked for, and end",
    )
    parser.add_argument(
        "--plain", action="store_true", help="lines of text instead of the full screen"
    )
    parser.add_argument(
        "--json", action="store_true", help="print one JSON document instead of the report"
    )


def _seconds(text: str) -> float:
    try:
        value = float(text)
    except ValueError:
        value = -1.0
    if not 0 < value <= LONGEST_WAIT_S:
        raise argparse.ArgumentTypeError(
            f"must be more than 0 and at most {LONGEST_WAIT_S} seconds, not {text!r}"
        )
    return value


def run(arguments: argparse.Namespace) -> int:
    """Carry out the walk and print its report; return the exit code of its verdict."""
    if arguments.list:
        return _list(arguments)
    request = bench_request(arguments, _choice(arguments), is_of_keys=True)
    is_full = is_full_screen() and not arguments.plain and not arguments.json
    with contextlib.closing(open_bench(request, _clock(request.port, is_full))) as bench:
        console = Console(sys.stderr)
        going_on = resume_command(arguments, bench.path)
        keyboard = keyboard_of(bench.profile)
        _tell_no_chords(bench, keyboard, console)
        tell_of_link(bench.about_link)
        if bench.after is not None:
            console.tell("\n".join(folded("", order_in_words(bench.after), TOLD_WIDTH)))
        with kept(bench.path, "walk", going_on, console):
            if is_full:
                _walk_on_screen(bench, arguments)
            else:
                _walk_in_lines(bench, arguments, keyboard, console)
        return _report(bench, arguments, console)


def _choice(arguments: argparse.Namespace) -> Choice | None:
    """Return the choice of the presses; None for those of the walk that this one comes after."""
    if arguments.after and arguments.which == ALL and not arguments.chords:
        return None
    return key_choice(arguments.which, arguments.chords)


def _tell_no_chords(bench: Bench, keyboard: Keyboard, console: Console) -> None:
    """Tell why no chords are asked for where they were wanted."""
    no_chords = no_chords_in_words(keyboard, bench.plan)
    if no_chords:
        console.tell("\n".join(folded("Chords: ", no_chords, TOLD_WIDTH)))


def _list(arguments: argparse.Namespace) -> int:
    if not arguments.profile:
        raise UsageError(unnamed("profile"))
    presses, proof = chosen_presses(load(arguments.profile), arguments.which)
    if arguments.json:
        print(json.dumps([_entry(press) for press in presses], indent=1))
        return EXIT_PASSED
    for press in presses:
        print(press.title)
    if proof:
        Console(sys.stderr).tell(f"{proof}.")
    return EXIT_PASSED


def _entry(press: Press) -> dict[str, object]:
    return {
        "key": press.key,
        "legend": press.legend,
        "modifiers": list(press.modifiers),
        "code": press.code.hex(),
    }


def _clock(port: str, is_watched: bool) -> Clock:
    if is_watched:
        return SystemClock()
    return unwatched_clock(port)


def _walk_on_screen(bench: Bench, arguments: argparse.Namespace) -> None:
    if hold_full_screen(bench, arguments.order == FREE, arguments.wait, arguments.mute):
        raise KeyboardInterrupt


def _walk_in_lines(
    bench: Bench, arguments: argparse.Namespace, keyboard: Keyboard, console: Console
) -> None:
    """Walk until all presses are answered or the builder stops."""
    run_ = new_run(bench)
    lines = WalkLines(
        run_,
        keyboard,
        console,
        is_quiet=bench.board is not None,
        has_bell=OF_PRESSES not in arguments.mute,
    )
    walk = _new_walk(bench, run_, arguments, lines, console)
    with sitting(run_):
        walk.walk()


def _new_walk(
    bench: Bench, run_: Run, arguments: argparse.Namespace, lines: WalkLines, console: Console
) -> KeyWalk:
    """Return the walk with the hands that are at the keyboard, and the wishes that are typed."""
    if bench.board:
        wait_s = arguments.wait or PRESS_LIMIT_S
        return KeyWalk(run_, LISTED, wait_s, hand=pressing_on(bench.board), listener=lines)
    if not is_typed_at():
        return KeyWalk(run_, arguments.order, arguments.wait, listener=lines)
    console.tell(HELP_LINE)
    return KeyWalk(
        run_,
        arguments.order,
        arguments.wait,
        lambda: typed_command(console),
        listener=lines,
        decide=lambda: typed_decision(console),
    )


def _report(bench: Bench, arguments: argparse.Namespace, console: Console) -> int:
    """Print what the walk has shown; return the exit code of its verdict."""
    if sys.stderr.isatty():
        console.tell("Comparing what came with every fault that the keyboard can have ...")
    recorded = load_run(bench.path)
    report = recorded.report
    sys.stdout.write(key_report(report, arguments.json))
    leave_page(recorded, console)
    tell_resume(report.verdict, resume_command(arguments, bench.path), console)
    return report.verdict.exit_code
