"""Puts the parts on the bench together into a run: its clock, observers, hands and switches."""

import dataclasses
from collections.abc import Mapping, Sequence
from typing import TextIO

from termprobe.cli.bench import Bench
from termprobe.cli.console import Console
from termprobe.cli.either_keyboard import either_keyboard
from termprobe.cli.foresight import foresight_at, has_known_faults
from termprobe.cli.key_hands import pressing_on, typing_on, with_key_held
from termprobe.cli.progress import Progress
from termprobe.clock import Clock, CrankedClock, SystemClock
from termprobe.journal.attention import CHECK, AttentionWanted
from termprobe.journal.standing import positions_by
from termprobe.link.base import Link, is_simulated
from termprobe.observer.base import Observer
from termprobe.observer.choosing import ChoosingBuilder
from termprobe.plan.model import Step
from termprobe.runner.asking import NO_HANDS, Hands
from termprobe.runner.known_fault import Decide, Foresight, ask_on
from termprobe.runner.line_of_run import Demands
from termprobe.runner.run import Run
from termprobe.runner.told import Listener, deaf
from termprobe.runner.untried import take_back_untried
from termprobe.runner.walk import carry_out as walk


def unwatched_clock(port: str) -> Clock:
    """Return the clock of a line that nobody watches: a simulated board needs no time."""
    if is_simulated(port):
        return CrankedClock(date=SystemClock().date())
    return SystemClock()


def new_run(
    bench: Bench,
    observers: Sequence[Observer] = (),
    hands: Hands = NO_HANDS,
    listener: Listener = deaf,
    link: Link | None = None,
    foresight: Foresight | None = None,
) -> Run:
    """Return the Run of the bench's plan; `link` stands in for the bench's own.

    Where no `foresight` is given no fault is named, and screens are as the plan has them.
    """
    needs = bench.profile.link
    if bench.board is not None:
        hands = with_key_held(bench.board, hands, can_plug=bench.cable is not None)
    run = Run(
        bench.plan,
        link or bench.link,
        bench.journal,
        bench.clock,
        observers,
        listener,
        positions=positions(bench),
        hands=hands,
        demands=Demands(needs.character_gap_ms / 1000, needs.handshake),
        foresight=foresight,
        wrong_looks=_wrong_looks(bench),
    )
    take_back_untried(run)
    return run


def _wrong_looks(bench: Bench) -> Mapping[str, Step]:
    """Return the looks that attention checks send wrong, as the run file says; none by default."""
    wanted = [one for one in bench.journal.records if isinstance(one, AttentionWanted)]
    if not wanted:
        return {}
    from termprobe.plan.attention import wrong_looks  # it loads pyte

    return wrong_looks(bench.plan, bench.profile, wanted[-1].rate, wanted[-1].seed, CHECK)


def carry_out(
    bench: Bench,
    observers: Sequence[Observer],
    hands: Hands,
    stream: TextIO,
    decide: Decide | None = None,
    is_until_sure: bool = False,
) -> None:
    """Carry out the plan, and show on `stream` how far it is; every error passes through.

    `decide` says what is to become of a fault that is named; without it none is. `is_until_sure`
    tells that it asks nobody.
    """
    progress = Progress(bench.plan, stream)
    foresight = None
    if decide or has_known_faults(bench):
        foresight = foresight_at(bench, is_until_sure)
    run = new_run(bench, observers, hands, progress, foresight=foresight)
    progress.run = run
    _offer_board_keys(bench, run, observers, stream)
    try:
        walk(run, decide or ask_on)
    finally:
        progress.end()


def _offer_board_keys(
    bench: Bench, run: Run, observers: Sequence[Observer], stream: TextIO
) -> None:
    """Let a person at a real board answer on its own keyboard, once that is proven."""
    for one in observers:
        if bench.board is None and isinstance(one, ChoosingBuilder):
            one.answer_keys = either_keyboard(run, Console(stream))


def positions(bench: Bench) -> dict[str, str]:
    """Return option -> position where the board's switches stand.

    That is what the profile calls normal, or where the run last set them. A simulated board is new
    each time, so its switches are normal again.
    """
    normal = {str(option.name): str(option.normal) for option in bench.profile.options}
    if bench.board:
        return normal
    return normal | positions_by(bench.records)


def hands_at(bench: Bench, person: Hands = NO_HANDS) -> Hands:
    """Return the hands at the board: its own where it is simulated, else those of a `person`."""
    board = bench.board
    if board is None:
        return person
    hands = dataclasses.replace(person, press=pressing_on(board))
    if board.profile.keyboard is None:
        return hands
    return dataclasses.replace(hands, type_word=typing_on(board))
