"""The example of a pipeline: somebody else's emulator, and a profile that is wrong about it."""

import os
import subprocess
import sys

import pytest
from junitparser import JUnitXml

from helpers.paths import ROOT, TESTS

PIPELINE = TESTS / "examples" / "pipeline.sh"
SCRIPT = """\
id: margin
title: What a pipeline looks at
stages:
  - id: screen
    title: The screen
    steps:
      - id: hello
        kind: look
        title: A greeting
        question: Is it there?
        send: [{text: HELLO}]
      - id: margin
        kind: look
        title: Over the right margin
        question: Does it go on in the row below?
        send: [{text: '*', times: 80}, {text: '+'}]
"""
RIGHT, WRONG = "last_column: pending", "last_column: overwrite"


def pipeline(folder, profile, **more):
    """Return the ended pipeline, in which a profile with that text is tried."""
    texts = {"PROFILE": profile, "SCRIPT": SCRIPT}
    paths = {name: folder / f"{name.lower()}.yaml" for name in texts}
    for name, path in paths.items():
        path.write_text(texts[name], encoding="utf-8")
    surroundings = os.environ | {name: str(path) for name, path in paths.items()} | more
    surroundings["TERMPROBE"] = f"{sys.executable} -m termprobe.cli.main"
    return subprocess.run(
        ["sh", PIPELINE, folder / "out"],
        env=surroundings,
        capture_output=True,
        text=True,
        timeout=60,
        check=False,
    )


def shipped():
    text = (ROOT / "profiles" / "ecma48-24x80.yaml").read_text(encoding="utf-8")
    assert RIGHT in text
    return text


@pytest.mark.parametrize(
    "profile, code, failures",
    [(shipped(), 0, []), (shipped().replace(RIGHT, WRONG), 1, ["Over the right margin [margin]"])],
    ids=["right", "wrong"],
)
def test_the_exit_code_and_the_junit_file_say_what_the_emulator_does(
    profile, code, failures, tmp_path
):
    done = pipeline(tmp_path, profile)
    assert done.returncode == code, done.stderr
    suites = JUnitXml.fromfile(str(tmp_path / "out" / "junit.xml"))
    cases = [case for suite in suites for case in suite]
    assert len(cases) == 2
    assert [case.name for case in cases if not case.is_passed] == failures
    assert (suites.tests, suites.failures) == (2, len(failures))


def test_an_emulator_that_does_not_start_is_trouble_and_no_verdict(tmp_path):
    done = pipeline(tmp_path, shipped(), EMULATOR="false")
    assert done.returncode == 3 and "the emulator must open" in done.stderr
    assert not (tmp_path / "out" / "junit.xml").exists()


def test_readme_shows_the_example_as_it_is():
    readme = (ROOT / "README.md").read_text(encoding="utf-8")
    section = readme.split("## In a pipeline\n")[1].split("\n## ")[0]
    shown = [line.strip() for line in section.split("\n") if line.startswith("    ")]
    script = PIPELINE.read_text(encoding="utf-8").split("\n")
    lines = [line.strip() for line in script]
    quoted = [line for line in shown if not line.startswith(("PROFILE=", "..."))]
    assert len(quoted) == 4 and [line for line in quoted if line not in lines] == []
