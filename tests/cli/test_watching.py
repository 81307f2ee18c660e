"""Doing something whenever a file is saved, with a clock and files of its own."""

import os

import pytest

from termprobe.cli.watching import POLL_S, on_each_save


class Hands:
    """A Clock that does the next of `deeds` each time somebody sleeps, and then interrupts."""

    def __init__(self, deeds):
        self.deeds, self.now, self.naps = list(deeds), 0.0, []

    def now_s(self):
        return self.now

    def sleep_until(self, deadline_s):
        self.naps.append(deadline_s - self.now)
        self.now = deadline_s
        if not self.deeds:
            raise KeyboardInterrupt
        self.deeds.pop(0)()


def nothing():
    pass


def counted(paths, deeds):
    """Return what each call found in the files, watched while `deeds` are done."""
    found = []
    hands = Hands(deeds)
    with pytest.raises(KeyboardInterrupt):
        on_each_save(paths, lambda: found.append([path.read_text() for path in paths]), hands)
    assert hands.naps == [POLL_S] * len(hands.naps)
    return found


@pytest.fixture
def paths(tmp_path):
    paths = [tmp_path / "profile.yaml", tmp_path / "script.yaml"]
    for path in paths:
        path.write_text("1")
    return paths


def test_it_is_done_at_once_and_then_only_after_a_save(paths):
    def save():
        paths[1].write_text("2, longer")

    assert counted(paths, [nothing, nothing]) == [["1", "1"]]
    assert counted(paths, [nothing, save, nothing]) == [["1", "1"], ["1", "2, longer"]]


def test_either_file_counts_and_one_of_the_same_size_does_too(paths):
    def save(path, text):
        path.write_text(text)
        os.utime(path, ns=(int(text), int(text)))

    deeds = [lambda: save(paths[0], "2"), lambda: save(paths[1], "3")]
    assert counted(paths, deeds) == [["1", "1"], ["2", "1"], ["2", "3"]]


def test_a_file_that_is_gone_for_a_moment_is_waited_for(paths):
    """Many editors write a new file and put it in the place of the old one."""
    deeds = [paths[1].unlink, nothing, lambda: paths[1].write_text("new one")]
    assert counted(paths, deeds) == [["1", "1"], ["1", "new one"]]


def test_what_goes_wrong_passes_through(paths):
    def fail():
        raise ZeroDivisionError

    with pytest.raises(ZeroDivisionError):
        on_each_save(paths, fail, Hands([]))
