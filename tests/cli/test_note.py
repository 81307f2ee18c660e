"""`termprobe note`: what is added afterwards stands in the run file, beside it and in its page."""

import shutil

import pytest

from helpers.paths import RUN_FILES
from helpers.photos import photo
from termprobe.cli.main import main
from termprobe.cli.recorded import load_run
from termprobe.clock import SystemClock
from termprobe.journal.file import Journal
from termprobe.photo import keeping


@pytest.fixture(name="refused")
def _refused(capsys):
    """Return what calls the command, and returns the one line of its complaint."""

    def refused(code, *words):
        assert main(["note", *map(str, words)]) == code
        (line,) = capsys.readouterr().err.splitlines()
        return line

    return refused


@pytest.fixture(name="run_file")
def _run_file(tmp_path):
    path = tmp_path / "7.run.jsonl"
    shutil.copy(RUN_FILES / "keys-quick.run.jsonl", path)
    (tmp_path / "u7.jpg").write_bytes(photo((900, 600)))
    return path


def test_a_photo_stands_beside_the_run_file_and_in_its_page(run_file, tmp_path, capsys):
    before = load_run(run_file).report
    step = before.plan.steps[0].id
    words = ["note", str(run_file), step, "U7", "is hot", "--photo", str(tmp_path / "u7.jpg")]
    assert main(words) == 0
    told = capsys.readouterr()
    assert told.out.splitlines()[0] == f"Noted in {run_file}."
    assert "Photo: 7-photo-1.jpg beside it (900 x 600 pixels, " in told.out
    page = tmp_path / "7.html"
    assert f"Report page: {page}\n" in told.err
    assert page.read_text("utf-8").count("data:image/jpeg;base64,") == 1
    now = load_run(run_file).report
    assert (now.noted[-1].step, now.noted[-1].text) == (step, "U7 is hot")
    assert now.ended == before.ended and now.links == before.links and not now.damages
    assert now.verdict == before.verdict
    (tmp_path / "7-photo-1.jpg").unlink()
    assert main(["report", str(run_file)]) != 2
    told = " ".join(capsys.readouterr().out.split())
    assert "U7 is hot; photo 7-photo-1.jpg (is not beside the run file)" in told


def test_a_photo_may_be_named_before_the_words_as_in_a_session(run_file, tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    assert main(["note", str(run_file), "-", "@u7.jpg", "cold joint"]) == 0
    last = load_run(run_file).report.noted[-1]
    assert (last.text, last.photo.name) == ("cold joint", "7-photo-1.jpg")


def test_a_note_may_be_of_the_whole_run_and_without_a_photo(run_file, capsys):
    assert main(["note", str(run_file), "-", "sold on"]) == 0
    assert capsys.readouterr().out == f"Noted in {run_file}.\n"
    last = load_run(run_file).report.noted[-1]
    assert (last.step, last.text, last.photo, last.is_afterwards) == (None, "sold on", None, True)


def test_what_cannot_be_noted_is_told_in_one_line_and_leaves_the_file(run_file, tmp_path, refused):
    data = run_file.read_bytes()
    wrong = refused(2, run_file, "no-such", "x")
    assert "STEP must be a step of" in wrong and "not 'no-such'" in wrong
    assert "must have a TEXT or a --photo" in refused(2, run_file, "-")
    (tmp_path / "x.jpg").write_bytes(b"nothing")
    assert "must be a whole picture" in refused(2, run_file, "-", "--photo", tmp_path / "x.jpg")
    assert "must be a run file" in refused(2, tmp_path / "none", "-", "x")
    assert run_file.read_bytes() == data and not list(tmp_path.glob("*photo*"))


def test_a_run_that_another_program_writes_is_refused(run_file, tmp_path, refused):
    journal = Journal.reopen(run_file, SystemClock())
    told = refused(4, run_file, "-", "--photo", tmp_path / "u7.jpg")
    journal.close()
    assert "another program is writing this run; end it first" in told
    assert not list(tmp_path.glob("*photo*"))


def test_a_copy_is_forgotten_where_the_note_cannot_be_written(run_file, tmp_path, monkeypatch):
    def fail(self, record):
        raise KeyboardInterrupt

    kept = keeping.keep_photo

    def then_fail(path, beside):
        monkeypatch.setattr(Journal, "append", fail)
        return kept(path, beside)

    monkeypatch.setattr(keeping, "keep_photo", then_fail)
    assert main(["note", str(run_file), "-", "--photo", str(tmp_path / "u7.jpg")]) == 130
    assert not list(tmp_path.glob("*photo*"))
