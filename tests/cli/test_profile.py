"""`termprobe profile`: what it prints, where, and its exit codes."""

import json

import pytest

from helpers.program import called
from termprobe import yamlfile
from termprobe.profile.load import load
from termprobe.profile.show import as_data

IDS = ("ecma48-24x80", "singlebyte-24x80")


def termprobe(*words):
    """Return exit code, standard output and standard error of one `termprobe profile`."""
    done = called("profile", *words)
    return done.returncode, done.stdout, done.stderr


def test_list_names_each_profile_with_its_title():
    code, out, err = termprobe("list")
    assert (code, err) == (0, "")
    named = [line.split()[0] for line in out.splitlines() if not line.startswith(" ")]
    assert named == sorted(yamlfile.shipped_ids("profiles"))


def test_list_and_page_say_what_a_profile_without_a_circuit_cannot_do():
    _, listed, _ = termprobe("list")
    begins = [line.split()[0] for line in listed.splitlines() if "no circuit, so no" in line]
    assert begins == ["no"] and max(map(len, listed.splitlines())) <= 80
    behind = listed.split("ecma48-24x80 ")[1].split("singlebyte-24x80 ")[0]
    assert "no simulated board and no practice" in " ".join(behind.split())
    _, shown, _ = termprobe("show", "ecma48-24x80")
    assert "no circuit, so no simulated board" in shown
    assert "no circuit" not in termprobe("show", "singlebyte-24x80")[1]


@pytest.mark.parametrize("name", IDS)
def test_json_is_one_document_under_the_names_of_the_file(name):
    code, out, err = termprobe("show", name, "--json")
    data = json.loads(out)
    assert (code, err, data) == (0, "", as_data(load(name)))
    assert (data["id"], data["display"]["rows"], data["keyboard"]["keys"][0]["matrix"]) == (
        name,
        24,
        [0, 0],
    )
    address = next(command for command in data["commands"] if command["name"] == "address")
    assert (
        address["bytes"]
        == {"ecma48-24x80": 'ESC "[" row ";" column "H"', "singlebyte-24x80": 'ESC "=" row column'}[
            name
        ]
    )


@pytest.mark.parametrize("name", IDS)
def test_check_calls_a_good_profile_good(name, tmp_path):
    path = tmp_path / "mine"
    path.write_text((yamlfile.shipped("profiles") / f"{name}.yaml").read_text(encoding="utf-8"))
    for word in (name, str(path)):
        code, out, err = termprobe("check", word)
        assert (code, err) == (0, "") and out.startswith(f"{word}: good ({name}, ")


def test_check_puts_every_finding_on_a_line_of_standard_error(tmp_path):
    path = tmp_path / "bad.yaml"
    path.write_text("id: A B\ntitle: [x]\nfresh: yes\n")
    code, out, err = termprobe("check", str(path))
    assert (code, out) == (2, "")
    lines = err.splitlines()
    assert len(lines) > 3 and all(line.startswith(f"{path}:") for line in lines)


@pytest.mark.parametrize(
    "words", [("show", "nothing-like-it"), ("check", "nothing-like-it"), ("show",), (), ("undo",)]
)
def test_wrong_words_give_exit_code_2_and_no_traceback(words):
    code, out, err = termprobe(*words)
    assert (code, out) == (2, "") and err and "Traceback" not in err
