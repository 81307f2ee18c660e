"""`termprobe demo`: the whole job without hardware, on an invented board with one fault."""

import sys
import tempfile

DEFAULT_FAULT = "bank-1-data/stuck/0/1"
SERIAL, REVISION, BUILDER = "DEMO-07", "B", "nobody; it is simulated"


def add_arguments(parser):
    """Add the words of this command to `parser`."""
    parser.add_argument(
        "--fault",
        metavar="NAME",
        default=DEFAULT_FAULT,
        help=f"the board's fault, or none (default: {DEFAULT_FAULT})",
    )
    parser.add_argument(
        "--out",
        metavar="DIR",
        help="folder of the run file and the report (default: a new one for temporary files)",
    )


def run(arguments):
    """Show the job; return 0 where the run found what was announced, 1 where it did not."""
    from termprobe.cli.recorded import load_run

    out = arguments.out or tempfile.mkdtemp(prefix="termprobe-demo-")
    fault = "" if arguments.fault == "none" else arguments.fault
    bench = _bench(fault, out)
    _introduce(bench, fault)
    try:
        report = _carry_out(bench)
    finally:
        bench.close()
    _show_a_difference(bench, load_run(bench.path), report)
    return _conclude(bench, report, fault, out)


def _bench(fault, out):
    import argparse

    from termprobe.cli.bench import open_bench
    from termprobe.clock import CrankedClock, SystemClock

    words = {
        "profile": "singlebyte-24x80",
        "script": "acceptance",
        "port": f"sim:{fault}",
        "speed": None,
        "board": SERIAL,
        "revision": REVISION,
        "builder": BUILDER,
        "fitted": "",
        "resume": None,
        "out": out,
    }
    return open_bench(argparse.Namespace(**words), CrankedClock(date=SystemClock().date()))


def _introduce(bench, fault):
    from termprobe.board.faults.catalogue import fault as board_fault

    steps = [step for step in bench.plan.steps if not step.not_fitted]
    looks = sum(step.kind == "look" for step in steps)
    title = board_fault(bench.profile, fault).title if fault else "no fault at all"
    print(
        f"On the bench: board {SERIAL}, a terminal of 24 x 80 built of small TTL chips.\n"
        f"It is simulated at the level of its circuit, and has {'this fault: ' if fault else ''}\n    {title}\n"
        f"The script '{bench.plan.script_id}' is not told. It knows what the manual says, sends codes,\n"
        f"and compares: {len(steps)} steps, {looks} of them looks at the screen.\n"
    )


def _carry_out(bench):
    from termprobe.cli.progress import Progress
    from termprobe.cli.recorded import report_of
    from termprobe.cli.run import make_run
    from termprobe.observer.simulated_screen import SimulatedScreenObserver
    from termprobe.observer.hands import HandsObserver
    from termprobe.observer.scripted import ScriptedObserver

    progress = Progress(bench.plan, sys.stdout)
    found = [
        SimulatedScreenObserver(bench.board.screen),
        HandsObserver(bench.board.set_option, [option.name for option in bench.profile.options]),
        ScriptedObserver(_bench_answers(bench.plan)),
    ]
    run_ = progress.run = make_run(bench, found, progress)
    run_.carry_out()
    progress.end()
    return report_of(bench.path)


def _bench_answers(plan):
    """Return what a builder with good supplies would answer where no screen can: readings in the middle of their limits."""
    from termprobe.observer.base import AS_EXPECTED, Answer

    answers = {}
    for step in plan.steps:
        if step.kind == "measure":
            limits = [limit for limit in (step.low, step.high) if limit is not None]
            answers[step.id] = Answer(
                AS_EXPECTED,
                value=sum(limits) / len(limits) if limits else 0.0,
                note="invented for the demonstration",
            )
        elif step.kind == "ask" and step.expected is None:
            answers[step.id] = Answer(AS_EXPECTED, note="invented for the demonstration")
    return answers


def _show_a_difference(bench, recorded, report):
    """Print a few rows of the failed look that differs most, what must be seen above what is seen."""
    from termprobe.notation import visible

    failed = [
        verdict for verdict in report.verdict.steps if verdict.verdict == "fail" and verdict.differs
    ]
    if not failed:
        return
    worst = max(
        failed,
        key=lambda verdict: (
            len(verdict.differs),
            sum(expected != " " for _, _, expected, _ in verdict.differs),
        ),
    )
    step = recorded.plan.step(worst.id)
    first = min(cell[0] for cell in worst.differs)
    seen = {(row, column): character for row, column, _, character in worst.differs}
    print(f"\nThe look '{worst.id}', left as it must be, right as this board shows it:\n")
    for row in range(max(0, first - 1), min(bench.plan.rows, first + 3)):
        wanted = step.expected.rows[row][:36]
        got = "".join(seen.get((row, column), character) for column, character in enumerate(wanted))
        print(f"  {row:>2} {visible(wanted)}  {visible(got)}")
    print()


def _conclude(bench, report, fault, out):
    import pathlib

    from termprobe.report import text

    rendered = text.render(report)
    path = pathlib.Path(out) / f"{SERIAL}-report.txt"
    path.write_text(rendered, encoding="utf-8")
    print(rendered)
    print(f"Run file and report are in {out}")
    found = report.verdict.verdict == ("fail" if fault else "pass")
    print(
        ("The fault was found." if fault else "The board passed.")
        if found
        else f"This is not what was announced: the verdict is {report.verdict.verdict}."
    )
    print(
        "Next: termprobe script show acceptance --profile singlebyte-24x80, or termprobe session --help"
    )
    return 0 if found else 1
