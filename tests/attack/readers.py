"""What reads: for each reader good inputs to be mutated, and how one input is given to it."""

import pathlib
from collections.abc import Callable, Sequence
from typing import NamedTuple

from . import good_inputs, reading
from .good_inputs import PROFILE, SCRIPT, WITHOUT_CIRCUIT, words_of
from .guarded import Outcome, called


class Reader(NamedTuple):
    """One who reads."""

    seeds: Callable[[], Sequence[bytes]]
    give: Callable[[bytes, pathlib.Path], Outcome]
    """Takes an input, and a file that it may write it to."""
    one_in: int = 1
    """Only one of so many inputs is given to it, since it takes so much longer."""


def _profile(data, path):
    path.write_bytes(data)
    checked = called(["profile", "check", str(path)])
    if checked.wrong or checked.code:
        return checked
    return called(["script", "check", str(SCRIPT), "--profile", str(path)])


def _script(data, path):
    path.write_bytes(data)
    return called(["script", "show", str(path), "--profile", WITHOUT_CIRCUIT])


def _run_file(data, path):
    path.write_bytes(data)
    return called(["report", str(path)])


def _stream(data, _):
    return called(["render", "--profile", WITHOUT_CIRCUIT], data)


def _told(data, _):
    return called(["explain", "--profile", str(PROFILE), *words_of(data)])


READERS = {
    "profile": Reader(good_inputs.profiles, reading.profile),
    "script": Reader(good_inputs.scripts, reading.script),
    "answers": Reader(lambda: good_inputs.ANSWERS, reading.answers),
    "card": Reader(lambda: good_inputs.FORMS, reading.card),
    "run file": Reader(good_inputs.run_files, reading.run_file),
    "photo": Reader(good_inputs.photos, reading.picture, 100),
    "render": Reader(lambda: good_inputs.STREAMS, reading.stream),
    "explain": Reader(lambda: good_inputs.WORDS, reading.told),
    "command profile check": Reader(good_inputs.profiles, _profile, 10),
    "command script show": Reader(good_inputs.scripts, _script, 10),
    "command report": Reader(good_inputs.run_files, _run_file, 100),
    "command render": Reader(lambda: good_inputs.STREAMS, _stream, 10),
    "command explain": Reader(lambda: good_inputs.WORDS, _told, 100),
}
"""First what reads, alone; then commands as a whole."""
