"""Playing shared out to processes: the same comes of it, in order, and an interrupt ends them."""

import concurrent.futures
import functools
import os
import signal
import subprocess
import sys
import threading
import time

import pytest

from helpers.paths import ROOT
from termprobe.diagnosis import processes
from termprobe.diagnosis.processes import FEWEST, one_by_one, over_processors


def numbered(offset):
    return lambda name: (int(name) + offset, os.getpid())


NAMES = [str(number) for number in range(FEWEST + 7)]


@pytest.mark.parametrize("processors", [1, 2])
def test_all_is_played_in_order_however_many_processors_there_are(monkeypatch, processors):
    monkeypatch.setattr(processes.os, "cpu_count", lambda: processors)
    told = []
    made = over_processors(
        functools.partial(numbered, 5), NAMES, lambda done, count: told.append(done)
    )
    assert [number for number, _ in made] == [int(name) + 5 for name in NAMES]
    assert told[-1] == len(NAMES) and told == sorted(set(told))
    is_here = {process == os.getpid() for _, process in made}
    assert is_here == {processors == 1}


@pytest.mark.parametrize("error", [OSError("no room"), ImportError(), NotImplementedError()])
def test_where_there_can_be_no_processes_they_are_played_here(monkeypatch, error):
    def refused(*_, **__):
        raise error

    monkeypatch.setattr(processes.os, "cpu_count", lambda: 2)
    monkeypatch.setattr(processes, "ProcessPoolExecutor", refused)
    made = over_processors(functools.partial(numbered, 0), NAMES)
    assert {process for _, process in made} == {os.getpid()} and len(made) == len(NAMES)


def test_a_few_are_played_here():
    made = over_processors(functools.partial(numbered, 0), NAMES[:3])
    assert [process for _, process in made] == [os.getpid()] * 3
    assert over_processors(functools.partial(numbered, 0), []) == []


def test_beside_other_threads_no_process_is_begun(monkeypatch):
    monkeypatch.setattr(processes.os, "cpu_count", lambda: 2)
    made = []
    thread = threading.Thread(
        target=lambda: made.extend(over_processors(functools.partial(numbered, 0), NAMES))
    )
    thread.start()
    thread.join()
    assert {process for _, process in made} == {os.getpid()} and len(made) == len(NAMES)


def test_beside_something_else_no_process_is_begun():
    told = []
    begin = functools.partial(numbered, 2)
    made = one_by_one(begin, NAMES, lambda done, count: told.append(done))
    assert [number for number, _ in made] == [int(name) + 2 for name in NAMES]
    assert {process for _, process in made} == {os.getpid()} and told[-1] == len(NAMES)


LONG = """
import time
from termprobe.diagnosis.processes import over_processors

def slow():
    {getting_ready}
    return lambda name: time.sleep(0.05)

print("begun", flush=True)
over_processors(slow, [str(number) for number in range(5000)])
"""


def begun(getting_ready):
    """Return a program, in a process group of its own, which has begun to play."""
    program = subprocess.Popen(
        [sys.executable, "-c", LONG.format(getting_ready=getting_ready)],
        cwd=ROOT,
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        text=True,
        start_new_session=True,
    )
    assert program.stdout.readline() == "begun\n"
    return program


@pytest.mark.skipif(not hasattr(os, "killpg"), reason="needs process groups")
@pytest.mark.parametrize("getting_ready", ["pass", "time.sleep(60)"])
def test_an_interrupt_ends_all_processes_soon_and_without_noise_of_theirs(getting_ready):
    program = begun(getting_ready)
    time.sleep(0.5)
    os.killpg(program.pid, signal.SIGINT)
    _, errors = program.communicate(timeout=30)
    assert errors.count("Traceback") == 1 and errors.rstrip().endswith("KeyboardInterrupt")


@pytest.mark.skipif(not hasattr(os, "killpg"), reason="needs process groups")
def test_no_process_outlives_a_program_that_was_killed():
    program = begun("pass")
    time.sleep(0.3)
    program.kill()
    program.communicate(timeout=10)  # its output ends with the last of its processes


def test_an_interrupt_is_raised_when_the_processes_have_ended():
    """Where it came, it could leave one of their locks taken for ever."""
    ended = []

    class Pool:
        def submit(self, function, piece):
            signal.raise_signal(signal.SIGINT)  # nothing is raised in here
            return concurrent.futures.Future()

        def shutdown(self, **_):
            ended.append(True)

    with pytest.raises(KeyboardInterrupt):
        list(processes.in_processes(Pool(), str, [1, 2]))
    assert ended and signal.getsignal(signal.SIGINT) is signal.default_int_handler


def test_what_reaches_all_programs_of_a_console_is_for_the_one_that_began_them(monkeypatch):
    taken = {}
    monkeypatch.setattr(processes.signal, "signal", taken.__setitem__)
    processes.leave_console()
    assert taken == {
        signal.SIGINT: signal.SIG_IGN,
        signal.SIGHUP: signal.SIG_IGN,
        signal.SIGTERM: signal.SIG_DFL,
    }
