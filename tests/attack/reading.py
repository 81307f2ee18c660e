"""Reading alone: each file and each word as its command takes it in, before it goes to work.

Nothing is worked out of what was read: so many more inputs can be tried than by whole commands.
"""

import functools
import io
import sys

from termprobe import yamlfile
from termprobe.cli import explain, render
from termprobe.cli.parser import Parser
from termprobe.cli.recorded import load_run
from termprobe.errors import TermprobeError
from termprobe.findings import Findings
from termprobe.link.base import LineFormat
from termprobe.observer import scripted
from termprobe.observer.card import answers_on
from termprobe.observer.card_form import form_of
from termprobe.photo.keeping import forget_photo, keep_photo
from termprobe.plan.card_items import card_items
from termprobe.plan.compile import compile_plan
from termprobe.profile.load import load as load_profile
from termprobe.script.load import load as load_script

from .good_inputs import PROFILE, SCRIPT, WITHOUT_CIRCUIT, words_of
from .guarded import GUARDED_CODES, guarded


def _guarded_reading(read):
    """Return how it ends to `read` something, which may be refused."""

    def code():
        try:
            read()
        except TermprobeError:
            return GUARDED_CODES["refused"]
        except SystemExit as end:
            return end.code
        return GUARDED_CODES["taken"]

    return guarded(code)


@functools.cache
def _small_script():
    return load_script(str(SCRIPT))


@functools.cache
def _small_profile():
    return load_profile(str(PROFILE))


@functools.cache
def _plan():
    return compile_plan(load_profile(WITHOUT_CIRCUIT), load_script("acceptance"))


def profile(data, path):
    """Read a profile, as every command does, and find every mistake in it."""
    path.write_bytes(data)
    return _guarded_reading(lambda: load_profile(str(path)))


def script(data, path):
    """Read a script, and make a plan of it for a small terminal."""
    path.write_bytes(data)
    return _guarded_reading(lambda: compile_plan(_small_profile(), load_script(str(path))))


def answers(data, path):
    """Read answers as `run --answers` does before it opens the line."""
    path.write_bytes(data)
    return _guarded_reading(lambda: scripted.load_answers(str(path), _plan()))


def card(data, path):
    """Read a form as `card --fill` does before it makes a run file."""
    path.write_bytes(data)

    def read():
        findings = Findings(str(path))
        form = form_of(yamlfile.read_text(path), findings)
        answers_on(form, card_items(_plan()), LineFormat(), findings)
        findings.refuse()

    return _guarded_reading(read)


def run_file(data, path):
    """Read a run file and judge its steps, as `report` does before it looks for causes."""
    path.write_bytes(data)
    return _guarded_reading(lambda: load_run(path).verdict)


def picture(data, path):
    """Take a picture in as a note does, and let go of the copy."""
    path.write_bytes(data)
    return _guarded_reading(lambda: forget_photo(keep_photo(str(path), str(path)), str(path)))


@functools.cache
def _parser_of(command):
    parser = Parser(prog=f"termprobe {command.__name__}")
    command.add_arguments(parser)
    return parser


@functools.cache
def _rendering():
    return _parser_of(render).parse_args(["--profile", WITHOUT_CIRCUIT])


def stream(data, _):
    """Render bytes, by a command line that was taken apart once."""
    stdin, sys.stdin = sys.stdin, io.TextIOWrapper(io.BytesIO(data), encoding="utf-8")
    try:
        return guarded(lambda: render.run(_rendering()))
    finally:
        sys.stdin = stdin


def told(data, _):
    """Take apart what is told to `explain`, up to what it begins to search with."""
    words = ["--profile", str(PROFILE), *words_of(data)]

    def read():
        arguments = _parser_of(explain).parse_args(words)
        explain.symptom_of(arguments, _small_profile())

    return _guarded_reading(read)
