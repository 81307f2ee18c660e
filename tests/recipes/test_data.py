"""The recipes for a terminal, a character set, a script and a pattern, followed in a copy of the
program: one file each.
"""

import json

import pytest

from helpers.checkout import Checkout, files_named


@pytest.fixture
def checkout(tmp_path):
    return Checkout(tmp_path)


def test_a_terminal_is_one_file(checkout):
    assert files_named("Add a terminal") == {"profiles/singlebyte-24x80.yaml"}
    old = (checkout.folder / "profiles" / "singlebyte-24x80.yaml").read_text(encoding="utf-8")
    new = old.replace("id: singlebyte-24x80", "id: singlebyte-16x40")
    new = new.replace("rows: 24", "rows: 16").replace("columns: 80", "columns: 40")
    checkout.add("profiles/singlebyte-16x40.yaml", new)
    assert "singlebyte-16x40" in checkout.run("profile", "list").stdout
    assert checkout.run("profile", "check", "singlebyte-16x40").returncode == 0
    done = checkout.run("render", "--profile", "singlebyte-16x40", "--json", input="HELLO")
    shown = json.loads(done.stdout)
    assert len(shown["rows"]) == 16 and shown["rows"][0] == "HELLO".ljust(40)
    words = ("run", "--profile", "singlebyte-16x40", "--script", "acceptance", "--board", "1")
    done = checkout.run(*words, "--port", "sim:", "--stage", "addressing", "--json")
    assert json.loads(done.stdout)["verdict"] == "pass", done.stdout


def test_a_character_set_is_one_file(checkout):
    assert files_named("Add a character set") == {"profiles/characters/5x7.yaml"}
    folder = checkout.folder / "profiles"
    old = (folder / "characters" / "5x7.yaml").read_text(encoding="utf-8")
    checkout.add("profiles/characters/bold.yaml", old.replace("id: 5x7", "id: bold"))
    shipped = (folder / "singlebyte-24x80.yaml").read_text(encoding="utf-8")
    own = shipped.replace("id: singlebyte-24x80", "id: bold-24x80")
    checkout.add("profiles/bold-24x80.yaml", own.replace("characters: 5x7", "characters: bold"))
    assert checkout.run("profile", "check", "bold-24x80").returncode == 0
    listed = checkout.run("sim", "--profile", "bold-24x80", "--faults", "dot-column").stdout
    assert "dot-column/missing/4" in listed


SCRIPT = """\
id: greeting
title: A greeting
stages:
  - id: hello
    title: Hello
    steps:
      - {id: hello-seen, kind: look, title: A word, question: Does HELLO stand there?, send: [{%s}]}
"""


def run_script(checkout, port):
    words = ("run", "--profile", "singlebyte-24x80", "--script", "greeting", "--board", "1")
    return json.loads(checkout.run(*words, "--port", port, "--json").stdout)


def test_a_script_is_one_file(checkout):
    assert files_named("Add a script, or a step") == {"scripts/acceptance.yaml"}
    checkout.add("scripts/greeting.yaml", SCRIPT % "text: HELLO")
    assert "A greeting" in checkout.run("script", "list").stdout
    assert checkout.run("script", "check", "greeting").returncode == 0
    assert run_script(checkout, "sim:")["verdict"] == "pass"
    assert run_script(checkout, "sim:bank-0-data/stuck/0/1")["verdict"] == "fail"


def test_a_pattern_is_one_function_and_one_row_of_one_file(checkout):
    (path,) = files_named("Add a pattern") - {"tests/plan/test_patterns.py"}
    checkout.edit(
        path,
        "\n\nPATTERNS = {\n",
        "\n\ndef thirds(rows, columns, _):\n"
        '    """Every third cell marked."""\n'
        '    return [("*  " * columns)[:columns]] * rows\n'
        '\n\nPATTERNS = {\n    "thirds": Pattern(thirds, "every third cell marked"),\n',
    )
    checkout.add("scripts/greeting.yaml", SCRIPT % "pattern: thirds")
    words = ("script", "show", "greeting", "--profile", "singlebyte-24x80", "--json")
    step = json.loads(checkout.run(*words).stdout)["steps"][0]
    assert step["expected"]["rows"][3] == ("*  " * 27)[:80]
    assert run_script(checkout, "sim:")["verdict"] == "pass"
