"""`termprobe render`: bytes in, the screen out."""

import json
import subprocess

from helpers.served import TERMPROBE


def render(data, *words):
    done = subprocess.run(
        [*TERMPROBE, "render", *words],
        input=data,
        capture_output=True,
        check=False,
    )
    return done.returncode, done.stdout.decode(), done.stderr.decode()


def test_json_has_rows_cursor_bells_and_replies():
    code, out, _ = render(b"\x1b[2;3HHi\a\x1b[6n", "--profile", "ecma48-24x80", "--json")
    document = json.loads(out)
    assert code == 0 and list(document) == ["rows", "cursor", "bells", "replies"]
    assert document["rows"][1].rstrip() == "  Hi" and len(document["rows"]) == 24
    assert (document["cursor"], document["bells"], bytes.fromhex(document["replies"])) == (
        [1, 4],
        1,
        b"\x1b[2;5R",
    )


def test_the_page_shows_screen_cursor_replies_and_what_means_nothing_unescaped():
    code, out, _ = render(b"AB\x05\x05\x1b[5n", "--profile", "ecma48-24x80")
    assert code == 0 and " 0>AB " in out and "cursor: row 0, column 2" in out
    assert 'sent back: ESC "[0n"' in out and "without a meaning in this profile: ENQ x 2" in out
    assert "\x1b" not in out and "\x05" not in out


def test_many_kinds_without_a_meaning_are_cut_short():
    _, out, _ = render(bytes(range(0x80, 0x90)), "--profile", "ecma48-24x80")
    named = "80h, 81h, 82h, 83h, 84h, 85h, 86h, 87h, and more"
    assert f"without a meaning in this profile: {named}" in out


def test_a_closed_standard_input_is_one_line_and_exit_code_2():
    words = [*TERMPROBE, "render", "--profile", "ecma48-24x80"]
    done = subprocess.run(
        ["sh", "-c", '"$@" <&-', "sh", *words], capture_output=True, text=True, check=False
    )
    assert (done.returncode, done.stdout) == (2, "")
    assert "must be a file or a pipe with the bytes, not closed" in done.stderr


def test_a_wrong_profile_is_one_line_and_exit_code_2():
    code, out, error = render(b"", "--profile", "singlebyte")
    assert (code, out, error.count("\n")) == (2, "", 1)
    assert error.startswith("termprobe: singlebyte: profile must be")


def test_options_stand_where_they_are_told_to():
    club = ("--profile", "club-16x64")
    _, out, _ = render(b"[A]", *club, "--set", "character-set=german", "--json")
    assert json.loads(out)["rows"][0].rstrip() == "ÄAÜ"
    code, _, complaint = render(b"", *club, "--set", "rows=9")
    assert code == 2 and "--set must be one of character-set=us, " in complaint
    assert 'not "rows=9"; nearest is "rows=8"' in complaint
