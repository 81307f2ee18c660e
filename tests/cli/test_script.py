"""`termprobe script`: lists, shows and checks."""

import json

import pytest

from helpers.program import called, complaint
from helpers.scripts import SINGLE, look, plan_of
from termprobe import yamlfile
from termprobe.cli import script as script_command
from termprobe.plan.covered import with_covering

LAMP = "  - name: lamp\n    positions: [lit, dark]\n    normal: dark\n"
LAMP += "    meaning: lit, it shines\n    source: unverified\n"
SHOW = ("script", "show", "acceptance")
WITH_PROFILE = (*SHOW, "--profile", "singlebyte-24x80")


def test_list_names_each_script_with_its_title():
    lines = called("script", "list").stdout.splitlines()
    assert [line.split()[0] for line in lines] == yamlfile.shipped_ids("scripts")


def test_what_a_script_has_is_counted_first():
    lines = called(*SHOW).stdout.splitlines()
    document = json.loads(called(*SHOW, "--json").stdout)
    assert len(lines) < 40 and lines[-1].startswith("The steps of a stage: --stage")
    for number, stage in enumerate(document["stages"], 1):
        row = next(line.split() for line in lines if line.split()[:1] == [str(number)])
        assert row[1] == stage["id"] and row[-1] == str(len(stage["steps"]))


def test_what_a_plan_has_and_costs_is_counted_first():
    text = called(*WITH_PROFILE).stdout
    lines = text.splitlines()
    assert len(lines) < 40 and max(map(len, lines)) <= 130
    document = json.loads(called(*WITH_PROFILE, "--json").stdout)
    rows = [line.split() for line in lines[4:-3]]
    fitted = [step for step in document["steps"] if not step["not_fitted"]]
    assert sum(int(row[-8]) for row in rows) == len(fitted)
    assert sum(int(row[-6]) for row in rows) == int(lines[1].split()[0])
    assert len(rows) == len(document["stages"])
    assert sum(int(row[-1]) for row in rows) >= document["effort"]["presses"]


def test_the_steps_of_a_stage_are_shown_on_demand():
    one = called(*SHOW, "--stage", "solid fields").stdout
    assert "\nfields: Solid fields" in one and "\nrails: " not in one and "solid-2a" in one
    assert "==== " in called(*WITH_PROFILE, "--steps").stdout


def test_an_outline_has_every_stage_and_step_as_text_and_as_json():
    text = called(*SHOW, "--steps").stdout
    document = json.loads(called(*SHOW, "--json").stdout)
    assert list(document) == ["id", "title", "stages"]
    for stage in document["stages"]:
        assert f"\n{stage['id']}: {stage['title']}" in text
        for step in stage["steps"]:
            assert f"\n  {step['id']:<34}{step['kind']:<12}{step['title']}" in text


def test_with_a_profile_the_plan_is_shown_with_what_it_costs():
    text = called(*WITH_PROFILE, "--stage", "fields").stdout
    head, cost = text.splitlines()[:2]
    assert head.startswith("acceptance for singlebyte-24x80: 2 steps, plan ")
    assert cost.startswith("2 looks, ") and cost.endswith(" key presses of the builder")
    assert "==== " in text and max(map(len, text.splitlines())) <= 100


def test_looks_that_others_spare_are_told_and_cost_nothing():
    plan = plan_of([look(name, [{"text": name}]) for name in ("a", "b", "c")])
    told = script_command._plan_summary(with_covering(plan, {"b": ("a",)}), SINGLE).split("\n")
    assert told[1].startswith("2 looks, ") and "Not counted: 1 look spared by others" in told[-2]
    assert told[4].split()[:6] == ["1", "first", "First", "3", "0", "2"]
    whole = script_command._plan_summary(plan, SINGLE)
    assert "spared" not in whole and "\n3 looks, " in whole


def test_the_plan_as_json_has_its_effort_to_a_tenth():
    document = json.loads(called(*WITH_PROFILE, "--stage", "fields", "--json").stdout)
    assert len(document["steps"]) == 2
    effort = document["effort"]
    assert set(effort) == {"looks", "sending_s", "looking_s", "presses"}
    assert effort["sending_s"] == round(effort["sending_s"], 1) > 0


def test_all_stages_but_one_are_shown_and_their_numbers_are_those_of_the_script():
    text = called(*SHOW, "--stage", "solid fields", "--stage", "edges", "--skip-stage", "edges")
    assert text.stdout == called(*SHOW, "--stage", "solid fields").stdout


def test_a_stage_that_is_not_there_is_refused():
    assert 'nearest is "fields"' in complaint(called(*WITH_PROFILE, "--stage", "field"), 2)


@pytest.mark.parametrize(
    "name, code, words",
    [
        ("keyboard", 0, "keyboard: good, 2 stages, 2 steps"),
        ("keybord", 2, 'nearest is "keyboard"'),
        ("/", 2, "must be a readable file"),
    ],
)
def test_a_script_is_checked_by_id_or_path(name, code, words):
    done = called("script", "check", name)
    assert done.returncode == code and "Traceback" not in done.stderr
    assert words in done.stdout + done.stderr


def test_a_script_that_names_an_unknown_pattern(tmp_path):
    script = tmp_path / "mine.yaml"
    script.write_text(
        "id: mine\ntitle: Mine\nstages:\n  - id: s\n    title: S\n    steps:\n"
        "      - {id: a, kind: look, title: A, question: Is it?, send: [{pattern: soldi}]}\n"
    )
    bench = ("--profile", "singlebyte-24x80", "--script", script, "--port", "sim:", "--board", "1")
    for words, begin in ((("run", *bench), "termprobe: "), (("script", "check", script), "")):
        done = called(*words)
        assert done.stderr.startswith(f"{begin}{script}:7:64: a: pattern must be one of")
        assert (done.returncode, "Traceback" in done.stderr) == (2, False)
        assert 'nearest is "solid"' in done.stderr


def test_a_script_that_no_board_could_follow_is_no_good_one(tmp_path):
    script, profile = tmp_path / "mine.yaml", tmp_path / "own.yaml"
    script.write_text(
        "id: mine\ntitle: Mine\nstages:\n  - id: s\n    title: S\n    steps:\n"
        "      - {id: on, kind: switch, title: On, option: lamp, position: lit}\n"
    )
    check = ("script", "check", script)
    done = called(*check)
    assert done.returncode == 2 and len(done.stderr.splitlines()) == 1
    assert "mine.yaml:7:9: an option of on must be one that a profile has" in done.stderr
    shipped = yamlfile.find("singlebyte-24x80", "profiles").read_text()
    profile.write_text(shipped.replace("  - name: duplex", LAMP + "  - name: duplex"))
    assert called(*check, "--profile", profile).returncode == 0
    script.write_text("id: mine\ntitle: Mine\nstages: []\n")
    done = called(*check)
    assert done.returncode == 2 and "must hold at least one stage" in done.stderr
