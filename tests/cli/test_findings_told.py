"""Findings of a file that was checked: each on a line that begins with its place."""

import pytest

from termprobe.cli.findings_told import tell_findings
from termprobe.cli.main import main
from termprobe.errors import FileError


def test_each_finding_is_a_line_made_harmless(capsys):
    assert tell_findings(FileError(["a.yaml:1:1: must be", "a.yaml:2:1: not \x1b"])) == 2
    told = capsys.readouterr()
    assert told.out == "" and told.err.splitlines()[0] == "a.yaml:1:1: must be"
    assert len(told.err.splitlines()) == 2 and "\x1b" not in told.err


@pytest.mark.parametrize("command", ["profile", "script"])
def test_a_check_begins_each_line_with_the_place_of_its_finding(command, tmp_path, capsys):
    path = tmp_path / "bad.yaml"
    path.write_text("id: A B\ntitle: [x]\ncolour: red\n")
    assert main([command, "check", str(path)]) == 2
    lines = capsys.readouterr().err.splitlines()
    assert len(lines) > 2 and all(line.startswith(f"{path}:") for line in lines)


@pytest.mark.parametrize("command", ["profile", "script"])
def test_a_file_that_is_not_there_is_a_finding_too(command, tmp_path, capsys):
    assert main([command, "check", str(tmp_path / "none.yaml")]) == 2
    assert capsys.readouterr().err.startswith(f"{tmp_path}/none.yaml: must be ")
