"""`termprobe keys`: walks the board's keyboard key by key, and concludes which line is at fault."""

import argparse
import sys

from termprobe.cli.bench import SIMULATED, add_bench_arguments
from termprobe.errors import EXIT_PASSED, UsageError

SCRIPT = "keyboard"
EXIT_OF = {"pass": 0, "fail": 1, "incomplete": 4}
COMMANDS = {
    "r": "again",
    "again": "again",
    "b": "back",
    "back": "back",
    "m": "missing",
    "missing": "missing",
    "stop": "stop",
    "q": "stop",
}
HELP_LINE = "r press the last key again   b take it back   m nothing came   s REASON leave it out   stop   then ENTER"


def add_arguments(parser):
    """Add the words of this command to `parser`."""
    add_bench_arguments(parser, script=False, needs_port=False)
    parser.add_argument(
        "--order",
        choices=("listed", "free"),
        default="listed",
        help="listed: each key is asked for; free: any key in any order until all have been pressed (default: listed)",
    )
    parser.add_argument(
        "--wait",
        metavar="SECONDS",
        type=_seconds,
        help="a press that does not come in this time is missing; without it `keys` waits",
    )
    parser.add_argument(
        "--quick",
        action="store_true",
        help="only the fewest presses that show every fault of the code and matrix lines",
    )
    parser.add_argument(
        "--chords",
        action="store_true",
        help="afterwards three keys at a time, to check each diode of the matrix",
    )
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
    parser.set_defaults(script=SCRIPT)


def _seconds(text):
    try:
        value = float(text)
    except ValueError:
        value = -1.0
    if not 0 < value <= 3600:
        raise argparse.ArgumentTypeError(
            f"must be more than 0 and at most 3600 seconds, not {text!r}"
        )
    return value


def run(arguments):
    """Carry out the walk and print its report; return the exit code of its verdict."""
    if arguments.list:
        return _list(arguments)
    if not arguments.port:
        raise UsageError(
            "--port must name the port of the board; `termprobe ports` lists them, and sim: is a simulated board"
        )
    from termprobe.cli.bench import open_bench
    from termprobe.clock import CrankedClock, SystemClock

    is_full = not (arguments.plain or arguments.json) and sys.stdin.isatty() and sys.stdout.isatty()
    is_quick_time = arguments.port.startswith(SIMULATED) and not is_full
    bench = open_bench(
        arguments,
        CrankedClock(date=SystemClock().date()) if is_quick_time else SystemClock(),
        _select(arguments),
        is_of_keys=True,
    )
    try:
        return _carry_out(bench, arguments, is_full)
    finally:
        bench.close()


def _list(arguments):
    from termprobe.plan.presses import coded_presses
    from termprobe.profile.load import load

    if not arguments.profile:
        raise UsageError(
            "--profile must name a profile; `termprobe profile list` shows those that come with termprobe"
        )
    profile = load(arguments.profile)
    presses = coded_presses(profile)
    if arguments.quick:
        wanted = set(_quick(profile))
        presses = [press for press in presses if press.id in wanted]
    if arguments.json:
        import json

        print(
            json.dumps(
                [
                    {
                        "key": press.key,
                        "legend": press.legend,
                        "modifiers": list(press.modifiers),
                        "code": press.code.hex(),
                    }
                    for press in presses
                ],
                indent=1,
            )
        )
    else:
        for press in presses:
            print(press.title)
    return EXIT_PASSED


def _select(arguments):
    """Return the function that picks the presses asked for out of the plan: all keys or the --quick ones, and the --chords."""
    from termprobe.plan.choose import choose

    def select(profile, plan):
        keys = (
            _quick(profile) if arguments.quick else [step.id for step in plan.of_stage("keyboard")]
        )
        return choose(
            plan, [*keys, *(step.id for step in plan.of_stage("chords") if arguments.chords)]
        )

    return select


def _quick(profile):
    from termprobe.diagnosis.key_sets import quick_presses

    return quick_presses(profile).presses


def _carry_out(bench, arguments, is_full):
    from termprobe.cli.recorded import load_run

    _refuse_without_keyboard(bench)
    try:
        if is_full:
            from termprobe.cli.session import full_screen

            if full_screen(bench, arguments, arguments.order == "free", arguments.wait):
                raise KeyboardInterrupt
        else:
            _walk(bench, arguments)
    except BaseException:
        print(
            f"The walk so far is in {bench.path}; go on with --resume {bench.path}", file=sys.stderr
        )
        raise
    return _report(load_run(bench.path), arguments)


def _refuse_without_keyboard(bench):
    if not bench.profile.keyboard:
        raise UsageError(
            f"--profile must name a profile that describes a keyboard, and {bench.profile.id} does not"
        )


def _walk(bench, arguments):
    """Walk until all presses are answered or the builder stops, in lines of text."""
    from termprobe.cli.run import make_run
    from termprobe.runner.key_walk import KeyWalk

    from termprobe.cli.run import press_on

    hand = press_on(bench.board) if bench.board else None
    is_person = hand is None and sys.stdin.isatty()
    listener, command = _Lines(bench, arguments), _typed_command if is_person else lambda: None
    run_ = make_run(bench, [], None)
    listener.run = run_
    if is_person:
        print(HELP_LINE, file=sys.stderr)
    walk = KeyWalk(
        run_,
        "listed" if hand else arguments.order,
        arguments.wait or (1.0 if hand else None),
        command,
        hand,
        listener,
    )
    try:
        is_done = walk.walk()
    except KeyboardInterrupt:
        bench.journal.append("stopped", sync=True, reason="interrupted")
        raise
    bench.journal.append("finished" if is_done else "stopped", sync=True)


class _Lines:
    """Tells of the walk on standard error, a line for each press."""

    def __init__(self, bench, arguments):
        self.run = None
        self._keyboard, self._is_quiet = bench.profile.keyboard, bench.board is not None
        self._is_free = arguments.order == "free" and not self._is_quiet

    def __call__(self, event):
        from termprobe.runner.key_walk import Asked, Pressed, TakenBack, Unnamed

        if isinstance(event, Asked) and not self._is_quiet:
            self._asked(event.step)
        elif isinstance(event, Pressed):
            self._pressed(event)
        elif isinstance(event, TakenBack):
            print(
                f"  taken back: {event.step.id}"
                if event.step
                else "  no key was pressed before this one",
                file=sys.stderr,
            )
        elif isinstance(event, Unnamed):
            print("  of which key? --order listed asks for one at a time", file=sys.stderr)

    def _asked(self, step):
        from termprobe.report.keyboard_drawing import request

        if step is not None:
            print(f"Press {request(self._keyboard, step)}", file=sys.stderr, flush=True)
        elif self._is_free:
            left = sum(verdict.verdict == "unanswered" for verdict in self.run.verdicts().steps)
            print(
                f"Press any key, with a short pause between two; {left} presses left",
                file=sys.stderr,
                flush=True,
            )

    def _pressed(self, event):
        from termprobe.notation import show

        if event.step is None:
            print(
                f"  {show(event.data) or 'an error of the line'} came, which no press left sends",
                file=sys.stderr,
            )
            return
        verdict = self.run.verdict(event.step)
        if verdict.verdict == "fail" or not self._is_quiet:
            print(
                f"  {'right' if verdict.verdict == 'pass' else 'WRONG'}: {event.step.id}: {'; '.join((verdict.reason, *verdict.evidence))}",
                file=sys.stderr,
            )


def _typed_command():
    """Return the command that the builder has typed on the console, or None; never wait."""
    import select

    if not select.select([sys.stdin], [], [], 0)[0]:
        return None
    line = sys.stdin.readline()
    if not line:
        return "stop"
    word, _, rest = line.strip().partition(" ")
    if word in ("s", "skip"):
        return f"skip {rest}"
    if word not in COMMANDS:
        print(HELP_LINE, file=sys.stderr)
    return COMMANDS.get(word)


def _report(recorded, arguments):
    from termprobe.report import json, text
    from termprobe.report.record import run_report
    from termprobe.verdict.judge import judge

    verdict = judge(recorded.plan, recorded.recording.records)
    report = run_report(recorded.path, recorded.recording, recorded.plan, verdict)
    if sys.stderr.isatty():
        print(
            "Comparing what came with every fault that the keyboard can have ...",
            file=sys.stderr,
            flush=True,
        )
    conclusion = _conclusion(recorded)
    if arguments.json:
        from termprobe.diagnosis.key_conclusion import suspects_document

        sys.stdout.write(
            json.dump(json.run_document(report) | {"suspects": suspects_document(conclusion)})
            + "\n"
        )
    else:
        sys.stdout.write(text.render(report) + "\n" + _page(recorded, verdict, conclusion))
    if any(step.verdict == "unanswered" for step in verdict.steps):
        print(f"Go on with --resume {recorded.path}", file=sys.stderr)
    return EXIT_OF[verdict.verdict]


def _conclusion(recorded):
    from termprobe.diagnosis.key_conclusion import conclude
    from termprobe.diagnosis.key_outcomes import outcomes_of

    return conclude(recorded.profile, outcomes_of(recorded.recording.records))


def _page(recorded, verdict, conclusion):
    from termprobe.report.keyboard_drawing import drawing, states
    from termprobe.report.key_suspects import render

    verdicts = {step.id: step for step in verdict.steps}
    presses = [step for step in recorded.plan.steps if step.key]
    lines = drawing(recorded.profile.keyboard, states(recorded.profile.keyboard, presses, verdicts))
    return "\n".join(lines) + "\n\n" + render(conclusion, {step.id: step.title for step in presses})
