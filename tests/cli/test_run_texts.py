"""A run that goes on with another text of its script or profile."""

import dataclasses
import json
import re

import pytest

from helpers.paths import ROOT
from helpers.program import called, complaint, run_file
from termprobe.cli.recorded import load_run
from termprobe.journal.file import encode
from termprobe.journal.reading import read
from termprobe.journal.records import Answered, Resumed

RAIL = "{id: rail, kind: measure, title: Rail, unit: V, low: 4.75, high: 5.25, source: data}"
LOOK = "{id: letter, kind: look, title: A, question: Is it?, send: [{text: A}]}"
LAMP = "{id: lamp, kind: ask, title: Lamp, question: Is it lit?, start: none}"


class Bench:
    """A script and a profile of the user's own, a run over them, and what its builder reads."""

    def __init__(self, folder):
        self.folder = folder
        self.script, self.profile = folder / "mine.yaml", folder / "own.yaml"
        self.answers = folder / "answers.yaml"
        shipped = ROOT / "profiles" / "singlebyte-24x80.yaml"
        self.profile.write_text(shipped.read_text())
        self.write(RAIL, LOOK)

    def write(self, *steps, id="mine"):
        text = f"id: {id}\ntitle: Mine\nstages:\n  - id: s\n    title: S\n    steps:\n"
        self.script.write_text(text + "".join(f"      - {step}\n" for step in steps))

    def run(self, answers, *words):
        self.answers.write_text(answers)
        bench = ("--script", self.script, "--profile", self.profile, "--port", "sim:")
        more = ("--answers", self.answers, "--out", self.folder, "--board", "1")
        return called("run", *bench, *more, *words)

    def resume(self, answers, *words):
        return self.run(answers, "--resume", self.path, *words)

    @property
    def path(self):
        return run_file(self.folder)

    def report(self, *words):
        return called("report", self.path, *words)

    def document(self):
        return json.loads(self.report("--format", "json").stdout)


@pytest.fixture(name="bench")
def _bench(tmp_path):
    return Bench(tmp_path)


def verdicts(document):
    return {step["id"]: step["verdict"] for step in document["steps"]}


def narrower(text):
    return text.replace("4.75", "4.9")


def wider(text):
    return text.replace("4.75", "4.5")


def test_narrower_limits_are_asked_again_and_a_fail_by_them_is_one_in_the_report(bench):
    assert bench.run("rail: 4.8\n").returncode == 0
    bench.write(narrower(RAIL), LOOK)
    resumed, report = bench.resume("rail: 4.8\n"), bench.report()
    assert (resumed.returncode, report.returncode) == (1, 1)
    assert report.stdout.startswith("FAIL") and "4.9 to 5.25 V" in report.stdout


def test_wider_limits_are_asked_again_and_no_fail_is_left_for_good(bench):
    assert bench.run("rail: 4.6\n").returncode == 1
    bench.write(wider(RAIL), LOOK)
    assert bench.resume("{}\n").returncode == 4, "it is not judged by what was read before"
    assert verdicts(bench.document()) == {"rail": "unanswered", "letter": "pass"}
    assert bench.resume("rail: 4.6\n").returncode == 0 and bench.report().returncode == 0


def test_what_did_not_change_keeps_its_answer_wherever_it_stands(bench):
    bench.run("rail: 5\n")
    bench.write(LOOK, LAMP, RAIL.replace("title: Rail", "title: The rail of 5 V"))
    assert bench.resume("lamp: yes\n").returncode == 0
    answered = [one.step for one in read(bench.path).records if isinstance(one, Answered)]
    assert answered == ["rail", "letter", "lamp"]


def test_steps_that_are_no_more_and_steps_judged_by_each_text_are_told(bench):
    bench.run("rail: 4.6\n")
    bench.write(wider(RAIL), LAMP)
    bench.resume("rail: 4.6\nlamp: yes\n")
    texts = " ".join(bench.report().stdout.split("Texts of profile and script")[1].split())
    assert "1 from " in texts and ", begun with, plan " in texts
    assert ", script changed, plan " in texts and "2 steps judged by it: Rail, Lamp" in texts
    fail = "fail (4.6 V, outside the limits, 5 V \u00b1 5 %)"
    assert f"- Rail under text 1: {fail}; the step was changed and asked again: pass" in texts
    assert "- letter under text 1: pass; the step is no more" in texts
    document = bench.document()["texts"]
    assert [one["changed"] for one in document["used"]] == [[], ["script"]]
    assert [one["judged"] for one in document["used"]] == [[], ["rail", "lamp"]]
    earlier = {one["id"]: (one["text"], one["verdict"], one["now"]) for one in _earlier(document)}
    assert earlier == {"rail": (1, "fail", "pass"), "letter": (1, "pass", None)}


def _earlier(document):
    return document["earlier_answers"]


def test_passes_say_by_which_text_they_were_judged(bench):
    bench.run("rail: 5\n")
    bench.write(RAIL, LOOK, LAMP)
    done = bench.resume("lamp: yes\n", "--json")
    used = json.loads(done.stdout)["texts"]["used"]
    assert done.returncode == 0
    assert [one["judged"] for one in used] == [["rail", "letter"], ["lamp"]]


def test_a_run_whose_texts_did_not_change_says_nothing_of_them(bench):
    bench.run("{}\n")
    assert bench.resume("rail: 5\n").returncode == 0
    assert "texts" not in bench.document() and "Texts of" not in bench.report().stdout
    resumed = [one for one in read(bench.path).records if isinstance(one, Resumed)]
    assert [one.script_text for one in resumed] == [""]


def test_a_run_goes_on_with_its_latest_texts_where_none_is_named(bench):
    bench.run("{}\n")
    bench.write(narrower(RAIL), LOOK)
    bench.resume("{}\n")
    bench.answers.write_text("rail: 4.8\n")
    words = ("--port", "sim:", "--resume", bench.path, "--answers", bench.answers)
    assert called("run", *words).returncode == 1
    assert len(load_run(bench.path).texts) == 2


def test_a_profile_that_changed_asks_again_what_it_changes(bench):
    bench.run("rail: 5\n")
    profile = bench.profile.read_text()
    bench.profile.write_text(re.sub(r"(?m)^fresh: \[clear\]", "fresh: [clear, home]", profile))
    assert bench.profile.read_text() != profile
    resumed = bench.resume("{}\n")
    assert "and are asked: A\n" in resumed.stderr and resumed.returncode == 0
    assert bench.document()["texts"]["used"][1]["changed"] == ["profile"]


@pytest.mark.parametrize("kind", ["profile", "script"])
def test_another_profile_or_script_is_refused(bench, kind):
    bench.run("{}\n")
    before = bench.path.read_bytes()
    if kind == "script":
        bench.write(RAIL, id="yours")
    else:
        text = bench.profile.read_text()
        bench.profile.write_text(re.sub(r"(?m)^id: .*", "id: yours", text))
    done = bench.resume("{}\n")
    said = complaint(done, 2)
    assert f"--{kind} must be " in said and "not yours; begin a new run for another" in said
    assert bench.path.read_bytes() == before


def test_answers_hashed_by_another_version_count_for_the_same_text(bench):
    bench.run("rail: 5\n")
    recording = read(bench.path)
    lines = [encode_as(recording.header, plan_hash="f" * 64)]
    for record in recording.records:
        fields = {"hash": "another"} if isinstance(record, Answered) else {}
        lines.append(encode_as(record, **fields))
    bench.path.write_bytes(b"".join(lines))
    assert bench.report().returncode == 0
    bench.write(narrower(RAIL), LOOK)
    assert bench.resume("{}\n").returncode == 4
    assert verdicts(bench.document()) == {"rail": "unanswered", "letter": "pass"}


def encode_as(record, **fields):
    return encode(dataclasses.replace(record, **fields))


def test_answers_of_a_text_that_is_lost_let_no_run_pass(bench):
    bench.run("rail: 5\n")
    bench.write(RAIL, LOOK, LAMP)
    assert bench.resume("lamp: no\n").returncode == 1
    lines = bench.path.read_bytes().split(b"\n")
    kept = [line for line in lines if b'"script_text"' not in line or b'"header"' in line]
    bench.path.write_bytes(b"\n".join(kept))
    assert bench.report().returncode == 4
