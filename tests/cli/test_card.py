"""`termprobe card` prints a plan as a checklist."""

import pytest

from termprobe.cli.main import main

WORDS = ("card", "--profile", "ecma48-24x80", "--script", "quick")


@pytest.mark.parametrize(
    "format_, begins",
    [("text", "Test card: "), ("markdown", "# Test card: "), ("html", "<!DOCTYPE html>")],
)
def test_each_format_is_written_where_it_is_wanted(format_, begins, tmp_path):
    path = tmp_path / "card"
    assert main([*WORDS, "--format", format_, "-o", str(path)]) == 0
    text = path.read_text(encoding="utf-8")
    assert text.startswith(begins) and "ecma48-24x80" in text and "plan" in text


def test_a_stage_with_nothing_for_hands_is_refused(capsys):
    words = ("card", "--profile", "ecma48-24x80", "--script", "acceptance", "--stage", "adapter")
    assert main(words) == 2
    assert "--stage must name a stage of which something can be tried" in capsys.readouterr().err


def test_what_belongs_to_the_printed_card_is_refused_beside_a_form(capsys):
    assert main(["card", "--fill", "x.form", "-o", "x.html"]) == 2
    assert "-o and --format must be left out beside --fill" in capsys.readouterr().err


def test_a_card_needs_a_profile_and_a_script(capsys):
    assert main(["card", "--script", "quick"]) == 2
    assert "--profile must name a profile" in capsys.readouterr().err
