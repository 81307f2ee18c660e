"""Runs that are killed at random moments, and what must be left of them in the run file.

A run is carried out in a process that is forked for it, and tells the id of each step whose answer
it has acknowledged.
"""

import os
import signal
import time

from termprobe.journal.reading import read
from termprobe.journal.records import Answered


def killed_run(carry_out, count, delay_s, hear=lambda: None):
    """Return the ids that were acknowledged before the run was killed.

    `carry_out(tell)` is called in a process of its own; it calls `tell(id)` for each step, and for
    "ready" before the first. It is killed `delay_s` after `count` of them. `hear()` is called when
    "ready" is told, and each of these.
    """
    told, tell = os.pipe()
    child = os.fork()
    if child == 0:
        try:
            carry_out(lambda name: os.write(tell, f"{name}\n".encode()))
        finally:
            os._exit(1)
    os.close(tell)
    with os.fdopen(told, buffering=1) as lines:
        assert lines.readline() == "ready\n"
        hear()
        told_first = [_next(lines, hear) for _ in range(count)]
        time.sleep(delay_s)
        os.kill(child, signal.SIGKILL)
        assert os.WIFSIGNALED(os.waitpid(child, 0)[1]), "it was to be killed, but has ended before"
        return [*told_first, *_whole(lines.read())]


def _next(lines, hear):
    told = lines.readline().strip()
    hear()
    return told


def _whole(text):
    """Return the lines of `text` that were told to their end."""
    return text[: text.rfind("\n") + 1].split()


def assert_kept(path, acknowledged, kills):
    """Assert that the run file holds what was acknowledged, each step once, and little damage."""
    recording = read(path)
    answered = [record.step for record in recording.records if isinstance(record, Answered)]
    assert set(acknowledged) <= set(answered), "an answer that was acknowledged is lost"
    assert len(answered) == len(set(answered)), "a step was asked twice"
    assert len(recording.damages) <= kills, "a kill tears at most the line that was being written"
    return recording
