"""The bench, set up as it was asked for."""

import dataclasses
import json
import platform

import pytest

from termprobe.cli import bench as benches
from termprobe.cli.bench import free_path, open_bench
from termprobe.cli.opened_line import line_format
from termprobe.cli.request import BenchRequest, stage_choice
from termprobe.clock import CrankedClock
from termprobe.errors import FileError, LinkError, UsageError
from termprobe.journal.codec import encode
from termprobe.journal.reading import read
from termprobe.journal.records import BoardUnderTest, LinkUsed, Resumed

DATE = "2001-02-03T04:05:06+00:00"
LABEL = BoardUnderTest("0007", "B", "somebody", "no bell")


def request(folder, **fields):
    wanted = {"profile": "singlebyte-24x80", "script": "acceptance", "board": LABEL}
    return BenchRequest(**{"port": "sim:", "folder": str(folder), **wanted, **fields})


def opened(wanted):
    bench = open_bench(wanted, CrankedClock(date=DATE))
    bench.close()
    return bench


def test_a_new_run_file_says_what_the_run_is_made_with(tmp_path):
    bench = opened(request(tmp_path / "new", choice=stage_choice(["fields"])))
    header = read(bench.path).header
    assert bench.path == tmp_path / "new" / "0007-20010203T040506.run.jsonl"
    assert header.board == BoardUnderTest(
        serial="0007", revision="B", builder="somebody", fitted="no bell"
    )
    assert header.link == LinkUsed(name="sim:", format="9600 baud 7E1", note="")
    assert header.plan_hash == bench.plan.hash
    assert header.chosen == tuple(step.id for step in bench.plan.steps)
    assert header.left_out > 100 and "practice" not in encode(header)
    assert (bench.records, bench.changed_steps, bench.hidden_fault) == ((), (), "")


def test_a_run_file_tells_nothing_of_the_computer_but_its_system_and_python(tmp_path):
    """No kernel, no host name, no user: what is shared says what was asked for, and no more."""
    bench = opened(request(tmp_path))
    header = read(bench.path).header
    system, _, python = header.platform.partition(", Python ")
    assert system == platform.system() and python == platform.python_version()
    written = encode(header)
    told = json.dumps({name: text for name, text in written.items() if "_text" not in name})
    of_computer = (platform.release(), platform.version(), platform.node(), str(tmp_path))
    assert not [word for word in of_computer if word and word in told]


def test_a_run_that_is_resumed_goes_on_in_its_file(tmp_path):
    path = str(opened(request(tmp_path)).path)
    resumed = opened(BenchRequest("sim:", resume=path))
    assert str(resumed.path) == path and resumed.changed_steps == ()
    assert [record.kind for record in read(path).records] == ["resumed", "linked"]
    assert isinstance(opened(BenchRequest("sim:", resume=path)).records[0], Resumed)


def test_steps_that_have_changed_since_are_named(tmp_path):
    script = tmp_path / "mine.yaml"
    text = (
        "id: mine\ntitle: Mine\nstages:\n  - id: s\n    title: S\n    steps:\n"
        "      - {id: a, kind: look, title: A, question: Is it?, send: [{text: A}]}\n"
        "      - {id: b, kind: look, title: B, question: Is it?, send: [{text: B}]}\n"
    )
    script.write_text(text)
    path = opened(request(tmp_path, script=str(script))).path
    script.write_text(text.replace("text: B}", "text: C}"))
    resumed = opened(request(tmp_path, script=str(script), resume=str(path)))
    assert resumed.changed_steps == ("b",)


def test_a_practice_that_is_resumed_has_the_same_hidden_fault(tmp_path):
    first = opened(request(tmp_path, port="sim:random"))
    again = opened(BenchRequest("sim:random", resume=str(first.path)))
    assert first.hidden_fault and again.hidden_fault == first.hidden_fault
    header = dataclasses.replace(read(first.path).header, profile_text="", script_text="")
    assert first.hidden_fault not in json.dumps(encode(header))


def test_the_board_must_have_a_serial_number(tmp_path):
    with pytest.raises(UsageError, match="--board must give the serial number"):
        opened(request(tmp_path, board=BoardUnderTest("")))


def test_a_port_that_is_not_there_leaves_no_file(tmp_path):
    with pytest.raises(LinkError, match="/dev/ttyNONE"):
        opened(request(tmp_path / "runs", port="/dev/ttyNONE"))
    assert not list(tmp_path.iterdir())


def test_a_folder_that_cannot_be_made_is_refused(tmp_path):
    (tmp_path / "file").write_text("")
    with pytest.raises(FileError, match="try another --out DIR"):
        opened(request(tmp_path / "file" / "runs"))


def test_the_line_can_be_opened_again_in_another_format(tmp_path):
    bench = opened(request(tmp_path))
    again = bench.link_in(line_format(bench.profile, 300))
    assert (again.name, again.board, again.format.speed_baud) == ("sim:", bench.board, 300)


@pytest.mark.parametrize(
    "serial, stem",
    [
        ("0007", "0007"),
        ("a/b c", "a_b_c"),
        ("..", "board"),
        (".x.", "x"),
        ("\u00fc", "_"),
        ("x" * 300, "x" * 80),
    ],
)
def test_a_run_file_is_named_after_board_and_date(tmp_path, serial, stem):
    path = free_path(tmp_path, serial, DATE)
    assert path == tmp_path / f"{stem}-20010203T040506.run.jsonl"


def test_no_run_file_is_written_over(tmp_path):
    names = []
    for _ in range(3):
        path = free_path(tmp_path, "x", DATE)
        path.write_text("")
        names.append(path.name.removeprefix("x-20010203T040506"))
    assert names == [".run.jsonl", "-1.run.jsonl", "-2.run.jsonl"]


def test_a_run_that_begins_in_the_same_moment_has_a_file_of_its_own(tmp_path, monkeypatch):
    first = opened(request(tmp_path)).path
    paths = [tmp_path / "free.run.jsonl", first]
    monkeypatch.setattr(benches, "free_path", lambda *_: paths.pop())
    assert opened(request(tmp_path)).path == tmp_path / "free.run.jsonl"


def test_a_run_is_not_gone_on_with_on_another_board(tmp_path):
    path = str(opened(request(tmp_path)).path)
    assert opened(BenchRequest("sim:", resume=path, board=LABEL))
    other = dataclasses.replace(LABEL, serial="0008")
    with pytest.raises(UsageError, match="--board must be 0007 on --resume.*, not 0008"):
        opened(BenchRequest("sim:", resume=path, board=other))


def test_a_run_that_goes_on_over_another_line_says_so(tmp_path):
    path = str(opened(request(tmp_path)).path)
    assert opened(BenchRequest("sim:", resume=path)).about_link == ""
    fault = "sim:bank-1-data/swapped/2-3"
    told = opened(BenchRequest(fault, resume=path)).about_link
    assert told == (
        f"The run goes on over {fault} 9600 baud 7E1; so far it was over sim: 9600 baud 7E1."
    )
    assert "so far it was over sim:b" in opened(BenchRequest("sim:", resume=path)).about_link


def test_a_speed_that_the_profile_does_not_list_is_remarked_on(tmp_path):
    for speed_baud in (None, 300, 19200):
        usual = dataclasses.replace(request(tmp_path), speed_baud=speed_baud)
        assert opened(usual).about_link == ""
    mistyped = dataclasses.replace(request(tmp_path), speed_baud=1920)
    assert opened(mistyped).about_link == (
        "1920 baud is none of the speeds of singlebyte-24x80: "
        "110, 300, 600, 1200, 2400, 4800, 9600, 19200. Is it mistyped?"
    )
