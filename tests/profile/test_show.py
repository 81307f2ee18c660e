"""A profile as a page of text and as plain data."""

import json

import pytest

from helpers.mistakes import IDS, changed
from termprobe.profile.load import load, parse
from termprobe.profile.show import as_data, page


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
    assert any(line.strip().startswith("|1  |2  |3  |") for line in lines)
    assert any(line.split() == ["2", "TAB", "W", "R", "Y", "I", "P", "]", "."] for line in lines)


@pytest.mark.parametrize("name, handshake", [(IDS[0], "xon-xoff"), (IDS[1], "none")])
def test_a_page_shows_how_the_line_is_controlled(name, handshake):
    assert f"handshake {handshake}, RTS on, DTR on" in "\n".join(page(load(name)))


def test_a_page_shows_timing_where_there_is_any():
    text = changed(
        "action: clear",
        "action: clear\n    settle_ms: 50\n    fill: {code: NUL, count: 48, from_baud: 1200}",
    )
    words = " ".join(page(parse(text, "p"))).split()
    assert "busy for 50 ms; 48 x NUL to fill, from 1200 baud" in " ".join(words)


def test_a_page_is_safe_to_print_whatever_the_profile_says():
    text = changed("title: 24 x 80", "title: \u65e5\u672c \U0001f600 caf\u00e9 24 x 80")
    lines = page(parse(text, "p"))
    assert all(character.isprintable() for line in lines for character in line)


def test_json_can_be_read_back_as_a_profile():
    profile = load("ecma48-24x80")
    data = {key: value for key, value in as_data(profile).items() if value is not None}
    assert parse(as_file(data), "json") == profile


def as_file(data):
    """Return plain data as YAML that the loader reads.

    Every scalar is quoted, yes and no stand for flags, nothing for None; empty text is left out.
    """
    if isinstance(data, dict):
        items = (
            f"{json.dumps(key)}: {as_file(value)}" for key, value in data.items() if value != ""
        )
        return "{" + ", ".join(items) + "}"
    if isinstance(data, list):
        return "[" + ", ".join(map(as_file, data)) + "]"
    if data is None:
        return ""
    if isinstance(data, bool):
        return {True: "yes", False: "no"}[data]
    quoted = str(data).replace("'", "''")
    return f"'{quoted}'"


def test_what_no_profile_holds_is_no_data():
    with pytest.raises(TypeError, match="not complex"):
        as_data((1j,))


def test_a_long_name_of_an_option_stays_apart_from_its_positions():
    name = "what-the-keys-do"
    text = changed("name: duplex", f"name: {name}").replace("option: duplex", f"option: {name}")
    lines = page(parse(text, "p"))
    assert any(line.split() == [name, "full", "(normal),", "half"] for line in lines)
