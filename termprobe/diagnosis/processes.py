"""The playing of many boards, shared out to the processors of this computer."""

import contextlib
import multiprocessing
import os
import signal
import threading
from collections.abc import Callable, Iterable, Iterator, Sequence
from concurrent.futures import ProcessPoolExecutor, wait
from functools import partial
from multiprocessing import connection
from multiprocessing.process import BaseProcess
from typing import TypeVar

from termprobe.diagnosis.playing import Performance

_Piece = TypeVar("_Piece")
_Made = TypeVar("_Made")
POLL_S = 0.2
"""So soon an interrupt is seen."""
PlayFault = Callable[[str], Performance]
"""Returns what the looks show on a board with the fault named."""
TellCount = Callable[[int, int], None]
"""Is told how many of how many are done."""
CHUNK = 24
"""So many faults are handed to a process at a time."""
FEWEST = 100
"""Fewer faults are not worth another process."""
OF_THE_CONSOLE = ("SIGINT", "SIGHUP")
"""Signals that reach all processes of a console."""


def told_nobody(done: int, count: int) -> None:
    """Tell nobody."""


def over_processors(
    begin: Callable[[], PlayFault], names: Sequence[str], told: TellCount = told_nobody
) -> list[Performance]:
    """Return the Performance for each fault of `names`, in order.

    Beside other threads they are played in this process: one that is begun then may hang.
    `begin` is called once in each process, and must be one that can be pickled. An interrupt ends
    the processes and passes through.
    """
    made: list[Performance] = []
    for performances in _in_chunks(begin, names):
        made += performances
        told(len(made), len(names))
    return made


def one_by_one(
    begin: Callable[[], PlayFault], names: Sequence[str], told: TellCount = told_nobody
) -> list[Performance]:
    """Return what over_processors does, without another process: beside something else."""
    play = begin()
    made: list[Performance] = []
    for name in names:
        made.append(play(name))
        told(len(made), len(names))
    return made


def _in_chunks(begin: Callable[[], PlayFault], names: Sequence[str]) -> Iterator[list[Performance]]:
    chunks = [names[start : start + CHUNK] for start in range(0, len(names), CHUNK)]
    processors = os.cpu_count() or 1
    is_alone = threading.current_thread() is threading.main_thread()
    pool = None
    if processors > 1 and len(names) >= FEWEST and is_alone:
        pool = pool_of(processors, partial(_begin, begin))
    if pool is None:
        _begin_here(begin)
        yield from map(_play, chunks)
        return
    yield from in_processes(pool, _play, chunks)


def in_processes(
    pool: ProcessPoolExecutor, function: Callable[[_Piece], _Made], pieces: Iterable[_Piece]
) -> Iterator[_Made]:
    """Yield what `function` makes of each of `pieces` in the processes of `pool`, in order.

    An interrupt ends the processes and passes through.
    """
    others = multiprocessing.active_children()
    with _interrupts_noted() as noted:
        try:
            futures = [pool.submit(function, piece) for piece in pieces]
            while futures and not noted:
                if wait(futures[:1], POLL_S).done:
                    yield futures.pop(0).result()
        finally:
            if noted:
                _end_all_but(others)
            pool.shutdown(cancel_futures=True)
    if noted:
        raise KeyboardInterrupt


def _end_all_but(others: Sequence[BaseProcess]) -> None:
    """End the processes that this one has begun since there were these, whatever they are at."""
    for process in multiprocessing.active_children():
        if process not in others:
            process.terminate()


@contextlib.contextmanager
def _interrupts_noted() -> Iterator[list[int]]:
    """Yield a list to which interrupts are added for the time of the block.

    One that were raised in the midst of it could leave a lock of the processes taken for ever.
    """
    noted: list[int] = []
    if threading.current_thread() is not threading.main_thread():
        yield noted
        return
    before = {number: signal.getsignal(number) for number in signal.valid_signals()}
    own = [number for number, act in before.items() if act == signal.default_int_handler]
    for number in own:
        signal.signal(number, lambda number, _: noted.append(number))
    try:
        yield noted
    finally:
        for number in own:
            signal.signal(number, before[number])


def pool_of(processors: int, begin: Callable[[], None]) -> ProcessPoolExecutor | None:
    """Return so many processes, each of which calls `begin` first.

    None where the system gives none: no shared memory, or no room in it.
    """
    try:
        return ProcessPoolExecutor(processors, initializer=begin)
    except (OSError, ImportError, NotImplementedError):
        return None


_of_process: list[PlayFault] = []
"""What plays in this process."""


def _begin(begin: Callable[[], PlayFault]) -> None:
    """Let this process play."""
    leave_console()
    end_with_parent()
    _begin_here(begin)


def leave_console() -> None:
    """Leave the interrupts of the console to the one that began this process, and can end it."""
    for name in OF_THE_CONSOLE:
        if hasattr(signal, name):
            signal.signal(getattr(signal, name), signal.SIG_IGN)
    signal.signal(signal.SIGTERM, signal.SIG_DFL)


def end_with_parent() -> None:
    """End this process as soon as the one that began it is gone, were it killed."""
    parent = multiprocessing.parent_process()
    if parent is not None:
        threading.Thread(target=_end_after, args=(parent.sentinel,), daemon=True).start()


def _end_after(sentinel: int) -> None:
    connection.wait([sentinel])
    os._exit(1)


def _begin_here(begin: Callable[[], PlayFault]) -> None:
    _of_process[:] = [begin()]


def _play(names: Sequence[str]) -> list[Performance]:
    (play,) = _of_process
    return [play(name) for name in names]
