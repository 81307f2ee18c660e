"""A form that was typed off a card becomes a run file like any other."""

import datetime
import hashlib
import json

import jsonschema
import pytest

from helpers.cards import HOSTILE
from helpers.paths import ROOT
from helpers.program import run_file
from termprobe.cli.filled_card import CardClock
from termprobe.cli.main import main
from termprobe.cli.recorded import load_run
from termprobe.journal.card import FilledFromCard
from termprobe.journal.records import Arrived, Linked, Sent

SCRIPT = """\
id: small
title: A small card
stages:
  - id: supplies
    title: Supplies
    steps:
      - id: supply
        kind: measure
        title: The 5 V supply
        question: At a socket.
        unit: V
        low: 4.75
        high: 5.25
        source: made up
  - id: screen
    title: The screen
    needs: [supply]
    steps:
      - {id: hello, kind: look, title: A greeting, question: 'HELLO?', send: [{text: HELLO}]}
      - {id: stars, kind: look, title: Stars, question: 'Stars?', send: [{text: '*', times: 79}]}
"""
RIGHT = {"V1": "4.95", "1": "ok", "2": "as expected"}


@pytest.fixture
def script(tmp_path):
    path = tmp_path / "small.yaml"
    path.write_text(SCRIPT, encoding="utf-8")
    return path


def form(script, *more, **answers):
    """Return the path of the form of the card, filled in with these words and answers."""
    path = script.with_name("card.form")
    words = ("--profile", "ecma48-24x80", "--script", str(script), "--format", "form")
    assert main(["card", *words, *more, "-o", str(path)]) == 0
    given = {"board": "0042", "builder": "Jo", "date": "2026-07-03"} | answers
    lines = path.read_text(encoding="utf-8").split("\n")
    filled = [
        f"{line} {given.get(line[:-1], '')}" if line.endswith(":") else line for line in lines
    ]
    path.write_text("\n".join(filled), encoding="utf-8")
    return path


def filled(path, *words):
    """Return (exit code, the run) of a form."""
    code = main(["card", "--fill", str(path), "--out", str(path.parent), *words])
    return code, load_run(run_file(path.parent))


def test_a_card_that_is_all_right_passes_but_says_that_nothing_was_on_a_link(script, capsys):
    path = form(script, **RIGHT, note=HOSTILE)
    code, run = filled(path)
    told = capsys.readouterr().out
    assert code == 0 and run.verdict.verdict == "pass"
    assert told.startswith("FROM A CARD, not on a link: board 0042 passed 3 of 3 steps\n")
    assert "Filled in from a card: nothing was on a link" in told
    assert "Date         3 July 2026\n" in told and "Answered by  card 3 steps" in told
    assert "\x1b" not in told
    records = run.recording.records
    (origin,) = [one for one in records if isinstance(one, FilledFromCard)]
    assert origin.digest == hashlib.sha256(path.read_bytes()).hexdigest()
    assert not [one for one in records if isinstance(one, Sent | Arrived | Linked)]
    assert {record.at for record in records} == {"2026-07-03"} and run.header.link is None
    assert run.header.board.builder == "Jo"
    page = run_file(script.parent).with_name("0042-20260703.html").read_text(encoding="utf-8")
    assert "FROM A CARD" in page and "<script" not in page


def test_report_diagnose_errata_and_a_resumed_run_read_it(script, capsys):
    remark = "row 5 is blank # and so on"
    code, run = filled(form(script, **RIGHT | {"1": f"differs  {remark}"}))
    assert code == 1 and run.path
    assert main(["report", run.path, "--format", "json", "-o", str(script) + ".json"]) == 1
    document = json.loads(script.with_name("small.yaml.json").read_text(encoding="utf-8"))
    schema = ROOT / "termprobe" / "report" / "report.schema.json"
    jsonschema.validate(document, json.loads(schema.read_text(encoding="utf-8")))
    assert document["card"] is True and document["headline"].startswith("FAIL (FROM A CARD): ")
    (hello,) = [step for step in document["steps"] if step["id"] == "hello"]
    assert hello["verdict"] == "fail" and hello["observer"] == "card"
    assert remark in " ".join(hello["evidence"])
    capsys.readouterr()
    assert main(["diagnose", run.path, "--json"]) == 1
    assert json.loads(capsys.readouterr().out)["verdict"] == "fail"
    main(["errata", run.path, "--format", "json"])
    found = json.loads(capsys.readouterr().out)
    assert found["boards"] and found["practice"] is False


def test_a_part_is_partial_and_its_form_knows_its_stage(script, capsys):
    code, run = filled(form(script, "--stage", "Supplies", V1="4.95", date="2026-07-03 18:45"))
    assert code == 0 and run.header.chosen == ("supply",)
    assert capsys.readouterr().out.startswith("PARTIAL (FROM A CARD): board 0042: Supplies, 1 of 3")
    moment = datetime.datetime.fromisoformat(run.header.at)
    assert moment == datetime.datetime(2026, 7, 3, 18, 45).astimezone()


def test_what_was_left_empty_can_be_gone_on_with_on_a_link(script):
    path = form(script, **{"V1": "4.95", "1": "ok"})
    code, run = filled(path)
    assert code == 4 and run.verdict.count("unanswered") == 1
    words = ("run", "--resume", run.path, "--port", "loop://", "--dump", "false")
    main([*words, "--out", str(script.parent)])
    again = load_run(run.path)
    assert again.report.scope.is_from_card and not again.report.scope.is_on_link_too
    assert [one.link.name for one in again.report.links] == ["loop://"]
    assert again.verdict.count("pass") == 2


def test_a_form_of_another_plan_or_with_findings_makes_no_file(script, capsys):
    path = form(script, **RIGHT | {"1": "fine"})
    fill = ["card", "--fill", str(path), "--out", str(path.parent)]
    assert main(fill) == 2
    assert ":4: item 1: the answer must be one of ok" in capsys.readouterr().err
    script.write_text(SCRIPT.replace("A greeting", "Another greeting"), encoding="utf-8")
    assert main(fill) == 2
    told = capsys.readouterr().err
    assert "plan must be " in told and "print it anew" in told
    assert list(script.parent.glob("*.run.jsonl")) == []


def test_no_time_passes_while_a_card_is_written_down():
    clock = CardClock("2026-07-03")
    clock.sleep_until(10.0)
    assert (clock.now_s(), clock.date()) == (0.0, "2026-07-03")
