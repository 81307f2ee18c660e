"""Which looks of a run spare others: worked out once, kept, recorded, and never in the way."""

import json
import os
import pathlib
from dataclasses import replace

import pytest

from helpers.few_faults import play_few
from helpers.scripts import SINGLE, look, plan_of
from termprobe import yamlfile
from termprobe.cli import covering
from termprobe.cli.covering import covered
from termprobe.cli.main import main
from termprobe.cli.recorded import load_run
from termprobe.journal.file import encode
from termprobe.journal.reading import read
from termprobe.plan.compile import compile_plan
from termprobe.plan.covered import covering_in
from termprobe.script.load import parse_recorded

SINGLE_TEXT = yamlfile.read_text(yamlfile.find("singlebyte-24x80", "profiles"))
LOOKS = [
    look("stars", [{"pattern": "solid", "with": "*"}]),
    look("more", [{"pattern": "solid", "with": "*"}]),
    look("again", [{"pattern": "solid", "with": "*"}]),
    look("word", [{"text": "HELLO"}]),
]
EXPECTED = {"again": ("stars",)}


@pytest.fixture
def cache(tmp_path, monkeypatch):
    """Return an empty folder for what is kept; little is worked out for it."""
    play_few(monkeypatch)
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path / "cache"))
    return tmp_path / "cache" / "termprobe"


def count(monkeypatch):
    """Return a list that grows each time a covering is worked out."""
    times, usual = [], covering._worked_out
    monkeypatch.setattr(covering, "_worked_out", lambda *all: times.append(1) or usual(*all))
    return times


def test_it_is_worked_out_once_and_kept(cache, monkeypatch):
    times = count(monkeypatch)
    found = covering_in(covered(plan_of(LOOKS), SINGLE, SINGLE_TEXT))
    assert found == EXPECTED and len(times) == 1
    assert covering_in(covered(plan_of(LOOKS), SINGLE, SINGLE_TEXT)) == found and len(times) == 1
    covered(plan_of(LOOKS[1:]), SINGLE, SINGLE_TEXT)
    covered(plan_of(LOOKS), SINGLE, f"{SINGLE_TEXT} ")
    assert len(times) == 3, "another plan, or another profile, is worked out anew"


def test_what_is_kept_and_damaged_is_worked_out_again(cache, monkeypatch):
    covered(plan_of(LOOKS), SINGLE, SINGLE_TEXT)
    for path in cache.iterdir():
        path.write_bytes(path.read_bytes()[:-3])
    times = count(monkeypatch)
    assert covering_in(covered(plan_of(LOOKS), SINGLE, SINGLE_TEXT)) == EXPECTED
    assert covering_in(covered(plan_of(LOOKS), SINGLE, SINGLE_TEXT)) == EXPECTED
    assert len(times) == 1


def test_a_cache_folder_that_cannot_be_is_no_trouble(tmp_path, monkeypatch):
    play_few(monkeypatch)
    (tmp_path / "file").touch()
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path / "file"))
    assert covering_in(covered(plan_of(LOOKS), SINGLE, SINGLE_TEXT)) == EXPECTED


def test_a_single_look_and_a_board_that_cannot_be_simulated_need_no_simulation(cache, monkeypatch):
    times = count(monkeypatch)
    assert covering_in(covered(plan_of(LOOKS[:1]), SINGLE, SINGLE_TEXT)) == {}
    assert main(["script", "show", "acceptance", "--profile", "ecma48-24x80"]) == 0
    assert times == [] and not cache.exists()


def script(folder, looks=LOOKS, name="try"):
    path = folder / f"{name}.yaml"
    lines = [
        f"id: {name}",
        "title: A try",
        "stages:",
        "  - id: one",
        "    title: One",
        "    steps:",
    ]
    path.write_text("\n".join([*lines, *(f"      - {each}" for each in looks)]) + "\n")
    return str(path)


def begin(folder, *words):
    bench = ["--profile", "singlebyte-24x80", "--script", script(folder), "--board", "1"]
    return main(["run", *bench, "--out", str(folder), *words])


def test_a_run_file_holds_what_its_verdicts_rest_on(tmp_path, capsys):
    assert begin(tmp_path, "--port", "sim:", "--json") == 0
    document = json.loads(capsys.readouterr().out)
    path = document["run"]
    assert dict(read(path).header.covered) == EXPECTED
    assert {step["verdict"] for step in document["steps"]} == {"pass"}
    asked = {record.step for record in read(path).records if record.kind == "answer"}
    assert asked == {"stars", "more", "word"}
    assert covering_in(load_run(path).plan) == EXPECTED


def test_where_what_covers_it_fails_a_look_is_asked_itself(tmp_path, capsys):
    assert begin(tmp_path, "--port", "sim:bank-0-data/stuck/0/1", "--json") == 1
    document = json.loads(capsys.readouterr().out)
    asked = {record.step for record in read(document["run"]).records if record.kind == "answer"}
    assert asked == {"stars", "more", "again", "word"}


def test_the_plan_says_what_covers_each_look(tmp_path, capsys):
    words = ["script", "show", script(tmp_path), "--profile", "singlebyte-24x80"]
    assert main([*words, "--json"]) == 0
    document = json.loads(capsys.readouterr().out)
    assert {step["id"]: step["covered_by"] for step in document["steps"]} == {
        "stars": [],
        "more": [],
        "again": ["stars"],
        "word": [],
    }
    assert document["effort"]["looks"] == 3
    assert main([*words, "--steps"]) == 0
    assert "not asked where all of these passed: stars" in capsys.readouterr().out


def resumable(folder, capsys):
    """Return the path of a run that was begun, with nothing answered but `stars`."""
    assert begin(folder, "--port", "sim:", "--json") == 0
    path = json.loads(capsys.readouterr().out)["run"]
    lines = pathlib.Path(path).read_bytes().split(b"\n")
    first_answer = next(number for number, line in enumerate(lines) if b'"answer"' in line)
    pathlib.Path(path).write_bytes(b"\n".join(lines[: first_answer + 1]) + b"\n")
    return path


def test_a_resumed_run_spares_what_it_spared_when_it_began(tmp_path, capsys, monkeypatch):
    path = resumable(tmp_path, capsys)
    times = count(monkeypatch)
    assert main(["run", "--resume", path, "--port", "sim:", "--json"]) == 0
    asked = [record.step for record in read(path).records if record.kind == "answer"]
    assert asked == ["stars", "more", "word"] and times == []


def test_of_a_plan_that_has_changed_since_nothing_is_spared(tmp_path, capsys):
    path = resumable(tmp_path, capsys)
    changed = script(tmp_path, [*LOOKS[:3], look("word", [{"text": "HALLO"}])])
    main(["run", "--resume", path, "--script", changed, "--port", "sim:", "--json"])
    asked = [record.step for record in read(path).records if record.kind == "answer"]
    assert asked == ["stars", "more", "again", "word"]
    assert covering_in(load_run(path).texts[0].text.plan) == EXPECTED
    assert covering_in(load_run(path).plan) == {}


def test_a_text_that_makes_the_same_plan_spares_the_same_looks(tmp_path, capsys):
    path = resumable(tmp_path, capsys)
    edited = pathlib.Path(script(tmp_path))
    edited.write_text(edited.read_text() + "\n# A remark.\n")
    words = ["run", "--resume", path, "--port", "sim:", "--json"]
    assert main([*words, "--script", str(edited)]) == 0
    asked = [record.step for record in read(path).records if record.kind == "answer"]
    assert asked == ["stars", "more", "word"]
    assert [covering_in(one.text.plan) for one in load_run(path).texts] == [EXPECTED, EXPECTED]


def test_a_port_that_is_none_is_told_before_anything_is_simulated(tmp_path, cache, monkeypatch):
    times = count(monkeypatch)
    assert begin(tmp_path, "--port", "sim:no-such-fault") == 2
    assert times == [] and not os.path.exists(cache)


def test_while_it_takes_long_a_line_says_so_and_the_document_stays_clean(
    tmp_path, cache, capsys, monkeypatch
):
    monkeypatch.setattr("termprobe.cli.patience.MOMENT_S", 0.0)
    assert begin(tmp_path, "--port", "sim:", "--json") == 0
    shown = capsys.readouterr()
    assert "Simulating boards with every fault" in shown.err
    assert json.loads(shown.out)["verdict"] == "pass"


def test_what_the_script_of_an_old_run_file_says_of_covering_proves_nothing(tmp_path, capsys):
    """Its looks that nobody answered are unanswered; those that were are as they were asked."""
    path = pathlib.Path(resumable(tmp_path, capsys))
    recording = read(path)
    looks = [LOOKS[0], *LOOKS[2:]]
    text = pathlib.Path(script(tmp_path, looks, "old")).read_text()
    text = text.replace('"id": "again"', '"covered_by": ["stars"], "id": "again"')
    old = compile_plan(SINGLE, parse_recorded(text, "old"))
    header = replace(recording.header, script_text=text, covered=(), plan_hash=old.hash)
    answers = [record for record in recording.records if record.kind == "answer"]
    stars = replace(answers[0], step="stars", hash=old.step("stars").hash)
    path.write_bytes(encode(header) + encode(stars))
    found = {step.id: step for step in load_run(path).report.verdict.steps}
    assert {step_id: step.verdict for step_id, step in found.items()} == {
        "stars": "pass",
        "again": "unanswered",
        "word": "unanswered",
    }
    assert found["stars"].because is None
    assert main(["run", "--resume", str(path), "--port", "sim:", "--json"]) == 0
    asked = [record.step for record in read(path).records if record.kind == "answer"]
    assert asked == ["stars", "again", "word"], "none is spared"
