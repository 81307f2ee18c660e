"""The bench on a full screen, for every command that shows one."""

from __future__ import annotations

import dataclasses
from collections.abc import Collection
from typing import TYPE_CHECKING

from termprobe.board.faults.catalogue import fault
from termprobe.cli.assembly import new_run, positions
from termprobe.cli.bench import Bench
from termprobe.cli.foreseen import predictor
from termprobe.cli.foresight import foresight_at
from termprobe.cli.recorded import load_run
from termprobe.cli.sound import OF_LOOKS, OF_PRESSES
from termprobe.report.after_words import order_in_words
from termprobe.report.formats.text import page
from termprobe.report.suspects import cause_in_words

if TYPE_CHECKING:
    from termprobe.session.messages import ReportRead
    from termprobe.session.state import State


def hold_full_screen(
    bench: Bench,
    is_free: bool = False,
    wait_s: float | None = None,
    muted: Collection[str] = (),
) -> bool:
    """Hold a session on a full screen; return whether it was interrupted.

    `is_free` takes keys in any order; a press that does not come within `wait_s` is missing;
    `muted` names the bells that are not wanted, by the words of sound.py.
    """
    from termprobe.session.app import Session  # these three load prompt_toolkit and pyte
    from termprobe.session.foresight import PictureForesight
    from termprobe.session.worker import Post, Worker

    boards = foresight_at(bench)
    if boards is not None:
        boards.load()

    def new_worker(post: Post) -> Worker:
        foresight = PictureForesight(post, lambda: predictor(bench))
        worker = Worker(
            bench.link,
            lambda link, listener: new_run(bench, listener=listener, link=link, foresight=boards),
            bench.link_in,
            foresight.tell,
            bench.clock,
            bench.profile,
            bench.board,
            wait_s,
            lambda: _report(bench),
        )
        foresight.watch(worker.run_of_plan)
        foresight.start()
        return worker

    return Session(_with_bells(_first_state(bench), is_free, muted), new_worker, bench.clock).run()


def _with_bells(state: State, is_free: bool, muted: Collection[str]) -> State:
    return dataclasses.replace(
        state,
        is_free=is_free,
        has_press_bell=OF_PRESSES not in muted,
        has_look_bell=OF_LOOKS not in muted,
    )


def _first_state(bench: Bench) -> State:
    from termprobe.session.opening import first_state  # it loads pyte

    practice = None
    if bench.board:
        practice = bool(bench.hidden_fault)
    return first_state(
        bench.plan,
        bench.profile,
        bench.link.format,
        bench.journal.header.board,
        bench.link.name,
        bench.records,
        bench.changed_steps,
        practice,
        bench.path,
        positions(bench),
        _ending(bench),
        bench.left_out,
        _order(bench),
    )


def _order(bench: Bench) -> tuple[str, ...]:
    """Return what is told first: of the link, and of a run that comes after another."""
    told = [bench.about_link]
    if bench.after is not None:
        told.append(order_in_words(bench.after))
    return tuple(filter(None, told))


def opening_of(bench: Bench) -> tuple[str, ...]:
    """Return what is told before the first step where there is no full screen."""
    from termprobe.session.opening import resumed  # it loads pyte

    return (*_order(bench), *resumed(bench.plan, bench.records, bench.changed_steps))


def _report(bench: Bench) -> ReportRead:
    """Return what the run file shows by now."""
    from termprobe.session.messages import ReportRead  # it loads pyte

    report = load_run(bench.path).report
    cause = cause_in_words(report.diagnosis)
    return ReportRead(page(report), cause)


def _ending(bench: Bench) -> tuple[str, ...]:
    """Return what is told at the end of a practice."""
    if not bench.hidden_fault:
        return ()
    title = fault(bench.profile, bench.hidden_fault).title
    return (f"The hidden fault was {bench.hidden_fault}: {title}.",)
