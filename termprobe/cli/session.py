"""`termprobe session`: the full-screen companion at the bench, or plain prompts where there is no full screen."""

import dataclasses
import os
import signal
import sys

from termprobe.cli import console
from termprobe.cli.bench import add_bench_arguments, add_stage_argument, selected_stages
from termprobe.errors import EXIT_INTERRUPTED

EXIT_OF = {"pass": 0, "fail": 1, "incomplete": 4}


def add_arguments(parser):
    """Add the words of this command to `parser`."""
    add_bench_arguments(parser)
    add_stage_argument(parser)
    parser.add_argument(
        "--plain",
        action="store_true",
        help="plain prompts, line by line, as for screen readers; by itself where input or output is no terminal",
    )
    parser.epilog = (
        "Practice: --port sim: is a simulated board, sim:FAULT one with that fault, and\n"
        "sim:random one with a fault that is told only at the end."
    )


def run(arguments):
    """Hold the session; return the exit code of its verdict, 130 where it was interrupted."""
    from termprobe.cli.bench import open_bench
    from termprobe.clock import SystemClock

    bench = open_bench(arguments, SystemClock(), selected_stages(arguments))
    try:
        is_full = not arguments.plain and sys.stdin.isatty() and sys.stdout.isatty()
        is_interrupted = full_screen(bench, arguments) if is_full else _plain(bench, arguments)
    finally:
        bench.close()
    verdict = _verdict(bench)
    try:
        _say_end(bench, verdict, sys.stdout if is_full else sys.stderr)
    except OSError:  # the console has gone; whatever else would be written to it goes nowhere
        sys.stdout = sys.stderr = open(os.devnull, "w", encoding="utf-8")  # pylint: disable=consider-using-with
    return EXIT_INTERRUPTED if is_interrupted else EXIT_OF[verdict.verdict]


def full_screen(bench, arguments, is_free=False, wait_s=None):
    """Hold the session on a full screen; return whether it was interrupted.

    `is_free` takes keys in any order; a press that does not come within `wait_s` is missing.
    """
    from termprobe.session.app import Session
    from termprobe.session.worker import Worker

    def new_run(link, listener):
        return _new_run(bench, link, [], listener)

    def new_worker(post):
        return Worker(
            bench.link,
            new_run,
            _opener(bench, arguments),
            post,
            bench.clock,
            bench.profile,
            bench.board,
            wait_s,
        )

    return Session(
        dataclasses.replace(_first_state(bench), is_free=is_free), new_worker, bench.clock
    ).run()


def _first_state(bench):
    from termprobe.board.faults.catalogue import fault
    from termprobe.cli.run import positions
    from termprobe.session.opening import first_state

    ending = (
        (
            f"The hidden fault was {bench.hidden_fault}: {fault(bench.profile, bench.hidden_fault).title}.",
        )
        if bench.hidden_fault
        else ()
    )
    return first_state(
        bench.plan,
        bench.profile,
        bench.link.format,
        bench.journal.header["board"],
        bench.link.name,
        bench.records,
        bench.changed_steps,
        bool(bench.hidden_fault) if bench.board else None,
        bench.path,
        positions(bench),
        ending,
    )


def _new_run(bench, link, found, listener=None, hand=None, again=None):
    from termprobe.cli.run import positions
    from termprobe.runner.run import Run

    needs = bench.profile.link
    return Run(
        bench.plan,
        link,
        bench.journal,
        bench.clock,
        found,
        listener,
        positions=positions(bench),
        hand=hand,
        again=again,
        gap_s=needs.character_gap_ms / 1000,
        handshake=needs.handshake,
    )


def _opener(bench, arguments):
    """Return a function that opens the bench's line again, in a format that may be another one."""

    def open_line(line_format):
        if bench.board is not None:
            from termprobe.board.link import SimLink

            return SimLink(bench.board, bench.clock, line_format, bench.link.name)
        from termprobe.link.open import open_port

        needs = bench.profile.link
        return open_port(arguments.port, line_format, bench.clock, needs.rts, needs.dtr)

    return open_line


def _plain(bench, arguments):
    """Return whether the session was interrupted."""
    from termprobe.session.opening import resumed
    from termprobe.session.plain import run_plain

    def ask(prompt):
        print(prompt, end="", flush=True)
        line = ""
        try:
            line = sys.stdin.readline()
        finally:
            if (
                not line
            ):  # the end of the input, or Ctrl-C: what is told next begins on a line of its own
                print()
        if not line:
            raise EOFError
        return line.rstrip("\n")

    for name in ("SIGHUP", "SIGTERM"):
        if hasattr(signal, name):
            signal.signal(getattr(signal, name), signal.default_int_handler)
    run_ = _plain_run(bench, ask)
    try:
        run_plain(
            run_,
            print,
            ask,
            lambda: _opener(bench, arguments)(bench.link.format),
            resumed(bench.plan, bench.records, bench.changed_steps),
        )
    except KeyboardInterrupt:
        return True
    return False


def _plain_run(bench, ask):
    from termprobe.plan.show import draw_screen
    from termprobe.terminal.screen import Screen
    from termprobe.observer.builder import BuilderObserver

    def draw(screen):
        width = console.columns(sys.stdout)
        expected = draw_screen(screen, width)
        if bench.board is None:
            return expected
        screen = bench.board.screen()
        shown = draw_screen(Screen(screen.rows, screen.cursor, bells=screen.bells), width)
        return f"{expected}\nThe simulated board shows:\n{shown}"

    def hand(step):
        typed = ask(
            f"\n[{step.id}] {step.title}\n{step.question}\nType {step.word.rstrip()} and RETURN on the board's own keyboard"
            + (": " if bench.board else ", then press ENTER here: ")
        )
        if bench.board:
            bench.board.type(typed + "\r")

    builder = BuilderObserver(ask, print, draw)
    found = [builder]
    if bench.board:
        from termprobe.observer.hands import HandsObserver

        found.append(
            HandsObserver(bench.board.set_option, [option.name for option in bench.profile.options])
        )
    return _new_run(bench, bench.link, found, hand=hand, again=builder.typed)


def _verdict(bench):
    from termprobe.journal.file import read
    from termprobe.verdict.judge import judge

    return judge(bench.plan, read(bench.path).records)


def _say_end(bench, verdict, file):
    """Print what the run has shown."""
    words = [step.verdict for step in verdict.steps]
    counts = ", ".join(f"{words.count(word)} {word}" for word in dict.fromkeys(words))
    print(
        f"{verdict.verdict}: {counts}\nRun file: {bench.path}    (termprobe report {bench.path})",
        file=file,
    )
    if verdict.verdict == "incomplete" or "unanswered" in words:
        print(f"Go on with --resume {bench.path}", file=file)
    file.flush()
