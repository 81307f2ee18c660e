"""Who is killed: a run, a resume by the command as a whole, a full-screen session, a walk."""

import contextlib
import functools
import os
import pathlib
import shutil
from collections.abc import Callable
from typing import NamedTuple

from helpers import crash, killed_session, killed_walk
from termprobe.cli.main import main
from termprobe.journal.file import Journal
from termprobe.journal.records import Answered

from .good_inputs import PROFILE
from .one_stage import script_of

STEPS = 150
"""Of the script that is gone on with; no file of it lives to see its last one."""


class Victim(NamedTuple):
    """Something that goes on with a run file."""

    begun: Callable[[pathlib.Path], Callable[[Callable[[str], object]], object]]
    """Takes the path of a run file; returns what goes on with it, and tells each answer's step."""
    kills_of_one_file: int = 50


def _run(path):
    return functools.partial(crash.carry_out, path)


def _session(path):
    made = killed_session.long_plan()
    killed_session.begun(made, path)
    return functools.partial(killed_session.answer_all, made, path)


def _walk(path):
    return functools.partial(killed_walk.carry_out, killed_walk.long_plan(), path)


def _resumed(path):
    """Begin a run of which nothing is answered; return what resumes it as a user does."""
    folder = path.parent
    script, answers = folder / "script.yaml", folder / "answers.yaml"
    script.write_text(_script(), encoding="utf-8")
    answers.write_text("".join(f"ask-{number}: yes\n" for number in range(STEPS)), encoding="utf-8")
    words = ["--profile", str(PROFILE), "--script", str(script), "--board", "7"]
    _quietly(["run", *words, "--port", "sim:", "--out", str(folder)])
    (made,) = folder.glob("*.run.jsonl")
    shutil.move(made, path)
    resume = ["run", "--resume", str(path), "--port", "sim:", "--answers", str(answers)]
    return functools.partial(_resume, resume)


def _script():
    steps = (
        f"id: ask-{number}, kind: ask, title: Number {number}, question: Is it so?"
        for number in range(STEPS)
    )
    return script_of("many", steps)


def _resume(words, tell):
    """Go on by the command `words`; `tell` the id of each step once its answer is safe."""
    append = Journal.append

    def telling(journal, record):
        written = append(journal, record)
        if isinstance(record, Answered):
            tell(record.step)
        return written

    Journal.append = telling
    _quietly(words)


def _quietly(words):
    with (
        open(os.devnull, "w", encoding="utf-8") as nothing,
        contextlib.redirect_stdout(nothing),
        contextlib.redirect_stderr(nothing),
    ):
        return main(words)


VICTIMS = {
    "run": Victim(_run, 5),
    "resume": Victim(_resumed, 25),
    "session": Victim(_session),
    "keys": Victim(_walk),
}
"""A run is killed from its first record on, so its files are many."""
