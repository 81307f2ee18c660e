"""`termprobe run`: carries out a script, unattended or at plain prompts."""

import sys

from termprobe.cli import console
from termprobe.cli.bench import SIMULATED, add_bench_arguments, add_stage_argument, selected_stages

EXIT_OF = {"pass": 0, "fail": 1, "incomplete": 4}


def add_arguments(parser):
    """Add the words of this command to `parser`."""
    add_bench_arguments(parser)
    add_stage_argument(parser)
    parser.add_argument(
        "--dump",
        metavar="COMMAND",
        help="program that prints the screen of the board as rows of text; it answers every look",
    )
    parser.add_argument(
        "--answers",
        metavar="FILE",
        help="YAML, step id to answer, for measure, ask and switch steps",
    )
    parser.add_argument(
        "--json", action="store_true", help="print one JSON document instead of the report"
    )


def run(arguments):
    """Carry out the run and print its report; return the exit code of its verdict."""
    from termprobe.cli.bench import open_bench

    bench = open_bench(arguments, _clock(arguments.port), selected_stages(arguments))
    try:
        return carry_out(bench, arguments, observers(bench, arguments))
    finally:
        bench.close()


def carry_out(bench, arguments, found):
    """Carry out the plan of `bench` with the observers `found`, print the report; return the exit code. Errors pass through."""
    from termprobe.cli.progress import Progress
    from termprobe.cli.recorded import report_of
    from termprobe.report import json, text

    progress = Progress(bench.plan)
    _say_changes(bench)
    run_ = make_run(bench, found, progress)
    progress.run = run_
    try:
        run_.carry_out()
    except BaseException:
        progress.end()
        print(
            f"The run so far is in {bench.path}; go on with --resume {bench.path}", file=sys.stderr
        )
        raise
    progress.end()
    report = report_of(bench.path)
    sys.stdout.write(
        json.dump(json.run_document(report)) + "\n" if arguments.json else text.render(report)
    )
    if report.verdict.verdict == "incomplete":
        print(f"Go on with --resume {bench.path}", file=sys.stderr)
    return EXIT_OF[report.verdict.verdict]


def make_run(bench, found, listener=None):
    """Return the Run of `bench` with the observers `found` and whoever can type on the board's keyboard."""
    from termprobe.runner.run import Run

    builder = next((observer for observer in found if hasattr(observer, "typed")), None)
    needs = bench.profile.link
    return Run(
        bench.plan,
        bench.link,
        bench.journal,
        bench.clock,
        found,
        listener,
        positions=positions(bench),
        hand=_hand(bench, builder),
        again=builder.typed if builder else None,
        press=_press(bench, builder),
        gap_s=needs.character_gap_ms / 1000,
        handshake=needs.handshake,
    )


def positions(bench):
    """Return option -> position where the board's switches stand: as the profile calls normal, or as the run last set them.

    A simulated board is new each time, so its switches are normal again.
    """
    normal = {str(option.name): str(option.normal) for option in bench.profile.options}
    moved = {
        record["option"]: record["position"]
        for record in bench.records
        if record["kind"] == "option"
    }
    return normal if bench.board else normal | moved


def _hand(bench, builder):
    if bench.board and bench.board.profile.keyboard:
        return lambda step: bench.board.type(step.typed.decode("latin-1"))
    if builder:
        return lambda step: print(
            f"\n[{step.id}] {step.title}\n{step.question}\n"
            f"Type {step.word.rstrip()} and RETURN on the board's own keyboard.",
            file=sys.stderr,
        )
    return None


def press_on(board):
    """Return the function that presses the key, or the keys, of a step on the simulated board."""
    return lambda step: (
        board.chord([*step.held, step.key])
        if step.held
        else board.press(step.key, frozenset(step.modifiers))
    )


def _press(bench, builder):
    if bench.board:
        return press_on(bench.board)
    if builder:
        return lambda step: print(
            f"\n[{step.id}] Press {step.title.rsplit(' sends ', 1)[0]} on the board's own keyboard.",
            file=sys.stderr,
        )
    return None


def observers(bench, arguments):
    """Return the observers that this command line and console offer."""
    found = []
    if bench.board:
        from termprobe.observer.simulated_screen import SimulatedScreenObserver
        from termprobe.observer.hands import HandsObserver

        found += [
            SimulatedScreenObserver(bench.board.screen),
            HandsObserver(bench.board.set_option, [o.name for o in bench.profile.options]),
        ]
    if arguments.answers:
        from termprobe.observer import scripted

        found.append(scripted.load(arguments.answers, bench.plan))
    if arguments.dump:
        from termprobe.clock import SystemClock
        from termprobe.observer.dump import DumpObserver

        found.append(DumpObserver(arguments.dump, SystemClock()))
    if sys.stdin.isatty():
        found.append(builder_at_prompts())
    return found


def builder_at_prompts():
    """Return the builder as an observer who is asked on standard error, so that standard output stays the report's."""
    from termprobe.plan.show import draw_screen
    from termprobe.observer.builder import BuilderObserver

    def ask(text):
        print(text, end="", file=sys.stderr, flush=True)
        line = sys.stdin.readline()
        if not line:
            raise EOFError
        return line.rstrip("\n")

    def tell(text):
        print(text, file=sys.stderr)

    return BuilderObserver(
        ask, tell, lambda screen: draw_screen(screen, console.columns(sys.stderr))
    )


def _clock(port):
    """Return the clock of the line: a simulated board needs no time, a real one the system's."""
    from termprobe.clock import CrankedClock, SystemClock

    return CrankedClock(date=SystemClock().date()) if port.startswith(SIMULATED) else SystemClock()


def _say_changes(bench):
    if bench.changed_steps:
        shown = ", ".join(bench.changed_steps[:8]) + (
            " and more" if len(bench.changed_steps) > 8 else ""
        )
        print(
            f"Profile or script changed since the run began; these steps are not what was answered then: {shown}",
            file=sys.stderr,
        )
