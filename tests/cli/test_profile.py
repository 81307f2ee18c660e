"""`termprobe profile`: what it prints, where, and its exit codes."""

import json

import pytest

from helpers.program import called
from termprobe import yamlfile
from termprobe.profile.load import load, parse
from termprobe.profile.show import as_data, page

ADDRESS = {
    "ecma48-24x80": 'ESC "[" row ";" column "H"',
    "singlebyte-24x80": 'ESC "=" row column',
}
IDS = tuple(ADDRESS)


def termprobe(*words):
    """Return exit code, standard output and standard error of one `termprobe profile`."""
    done = called("profile", *words)
    return done.returncode, done.stdout, done.stderr


def test_list_names_each_profile_with_its_title():
    code, out, err = termprobe("list")
    assert (code, err) == (0, "")
    assert [line.split()[0] for line in out.splitlines()] == sorted(
        yamlfile.shipped_ids("profiles")
    )


@pytest.mark.parametrize("name", IDS)
def test_a_page_fits_80_columns_and_names_every_command_with_bytes_edge_and_source(name):
    profile = load(name)
    lines = page(profile)
    text = "\n".join(lines)
    flat = " ".join(text.split())
    assert max(map(len, lines)) <= 80
    for command in as_data(profile)["commands"]:
        line = next(line for line in lines if line.split()[:1] == [command["name"]])
        assert command["bytes"] in line
        assert command["edge"] is None or line.endswith(f"edge: {command['edge']}")
        assert command["source"] in flat
        assert all(coding in text for coding in command["also"])
        assert command["reply"] is None or f"sends {command['reply']}" in text


def test_a_page_shows_display_link_options_keyboard_and_matrix():
    lines = page(load("singlebyte-24x80"))
    text = "\n".join(lines)
    assert "24 rows x 80 columns" in text and "9600 baud, 7E1" in text
    assert any(line.split() == ["duplex", "full", "(normal),", "half"] for line in lines)
    assert any(line.startswith("  |ESC|1  |2  |3  |") for line in lines)
    assert any(line.split() == ["2", "TAB", "W", "R", "Y", "I", "P", "[", "UP"] for line in lines)


def test_a_page_shows_timing_where_there_is_any():
    text = (yamlfile.shipped("profiles") / "singlebyte-24x80.yaml").read_text(encoding="utf-8")
    text = text.replace(
        "action: clear",
        "action: clear\n    settle_ms: 50\n    fill: {code: NUL, count: 48, from_baud: 1200}",
    )
    assert "busy for 50 ms; 48 x NUL to fill, from 1200 baud" in " ".join(
        " ".join(page(parse(text, "p"))).split()
    )


def test_a_page_is_safe_to_print_whatever_the_profile_says():
    text = (yamlfile.shipped("profiles") / "singlebyte-24x80.yaml").read_text(encoding="utf-8")
    lines = page(
        parse(
            text.replace("title: 24 x 80", "title: \u65e5\u672c \U0001f600 caf\u00e9 24 x 80"), "p"
        )
    )
    assert all(character.isprintable() for line in lines for character in line)


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
    assert address["bytes"] == ADDRESS[name]


def test_json_can_be_read_back_as_a_profile():
    profile = load("ecma48-24x80")
    data = {key: value for key, value in as_data(profile).items() if value is not None}
    assert parse(_as_file(data), "json") == profile


def _as_file(data):
    """Return plain data as YAML that the loader reads; empty text is left out."""
    if isinstance(data, dict):
        kept = {key: value for key, value in data.items() if value != ""}
        entries = [f"{json.dumps(key)}: {_as_file(value)}" for key, value in kept.items()]
        return "{" + ", ".join(entries) + "}"
    if isinstance(data, list):
        return "[" + ", ".join(map(_as_file, data)) + "]"
    if data is None:
        return ""
    if isinstance(data, bool):
        return {True: "'yes'", False: "'no'"}[data]
    return "'" + str(data).replace("'", "''") + "'"


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


def test_a_finding_says_what_must_be_and_what_is_near(tmp_path):
    path = tmp_path / "wrong.yaml"
    path.write_text("id: x\ntitle: x\ndisplay: {rows: many, colums: 80}\n")
    code, _, err = termprobe("check", str(path))
    assert code == 2 and f"{path}:3:17: rows must be a whole number" in err
    assert 'not "colums"; nearest is "columns"' in err and len(err.splitlines()) > 5
