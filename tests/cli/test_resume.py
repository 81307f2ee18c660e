"""How to go on with what ended early."""

import io
import pathlib

import pytest

from termprobe.cli.console import Console
from termprobe.cli.resume import kept, tell_resume

PATH = pathlib.Path("runs/x.run.jsonl")


@pytest.mark.parametrize("ending", [KeyboardInterrupt(), ValueError("odd")])
def test_whatever_ends_it_the_file_is_named_and_the_error_passes_through(ending):
    told = io.StringIO()
    with pytest.raises(type(ending)), kept(PATH, "walk", Console(told)):
        raise ending
    assert told.getvalue() == f"The walk so far is in {PATH}; go on with --resume {PATH}\n"


def test_nothing_is_told_of_what_reaches_its_end():
    told = io.StringIO()
    with kept(PATH, "run", Console(told)):
        pass
    assert told.getvalue() == ""


def test_what_is_left_open_can_be_gone_on_with():
    told = io.StringIO()
    tell_resume(PATH, Console(told))
    assert told.getvalue() == f"Go on with --resume {PATH}\n"
