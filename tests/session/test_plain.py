"""The session at plain prompts: by a pipe, as a screen reader's user types, and its run file."""

import pytest

from helpers.bench import FakeLink, Says, look
from helpers.bench_plan import PROFILE
from helpers.paths import TESTS
from helpers.program import called
from helpers.run_bench import RunBench
from termprobe.cli.opened_line import open_link
from termprobe.clock import SystemClock
from termprobe.errors import LinkError, LinkLostError, LinkMissingError
from termprobe.journal.reading import read
from termprobe.journal.records import Answered, Linked, StepBegun, Stopped
from termprobe.session.plain import run_plain

SCRIPT = TESTS / "helpers" / "bench_script.yaml"


def session(folder, typed, *more, port="sim:"):
    words = ("session", "--profile", "singlebyte-24x80", "--script", SCRIPT, "--board", "0007")
    return called(*words, "--port", port, "--out", folder, *more, input=typed)


def answers(folder):
    (path,) = folder.glob("*.run.jsonl")
    records = [record for record in read(path).records if isinstance(record, Answered)]
    return {record.step: record.answer.word for record in records}


def test_without_a_terminal_the_prompts_are_plain_and_every_answer_counts(tmp_path):
    done = session(tmp_path, "5.0\nyes\ny\ny\nn\na dot\nany\nu\n")
    assert done.returncode == 1, done.stderr
    assert "\x1b" not in done.stdout, "no escape sequence reaches a screen reader"
    assert (
        "CAUTION: Never plug or unplug serial leads" in done.stdout
        and "The simulated board shows:" in done.stdout
    )
    assert answers(tmp_path) == {
        "supply-5v": "as-expected",
        "hello": "as-expected",
        "stars": "as-expected",
        "corner": "differs",
        "word": "as-expected",
        "last": "unsure",
    }


def test_the_end_of_the_input_stops_and_resume_goes_on(tmp_path):
    first = session(tmp_path, "5.0\nyes\ny\n", "--plain")
    assert first.returncode == 4 and "--resume" in first.stderr
    (path,) = tmp_path.glob("*.run.jsonl")
    second = session(tmp_path, "yes\ny\ny\nany\ny\n", "--resume", path)
    assert second.returncode == 0, second.stderr
    assert "2 of 6 steps have an answer already" in second.stdout
    assert set(answers(tmp_path).values()) == {"as-expected"}


def test_a_run_that_has_failed_already_can_be_gone_on_with_too(tmp_path):
    done = session(tmp_path, "5.0\nyes\nn\na dot\n")
    assert done.returncode == 1 and "termprobe session --resume" in done.stderr
    assert done.stdout.endswith("\n"), "what is told at the end begins on a line of its own"


def test_a_practice_has_a_fault_that_stays_the_same_when_it_is_resumed_and_is_not_told(tmp_path):
    hidden = [at_random(chance) for chance in (1, 1, 2, 3, 4)]
    assert {opened.link.name for opened in hidden} == {"sim:"}
    names = [opened.hidden_fault for opened in hidden]
    assert names[0] == names[1] and len(set(names)) > 1
    done = session(tmp_path, "5.0\n", port="sim:random")
    (path,) = tmp_path.glob("*.run.jsonl")
    fault = at_random(read(path).header.practice).hidden_fault
    assert fault not in done.stdout + done.stderr + path.read_text()


def at_random(chance):
    return open_link("sim:random", PROFILE, SystemClock(), chance=chance)


def test_a_lost_line_is_waited_for(tmp_path):
    bench = RunBench(tmp_path, look("a"), observers=[Says()])
    bench.link.trouble = LinkLostError("the adapter vanished")
    said, back = [], FakeLink(bench.clock, name="new link")
    tries = [LinkLostError("not there yet"), LinkMissingError("no such port"), back]

    def relink():
        found = tries.pop(0)
        if isinstance(found, Exception):
            raise found
        return found

    assert run_plain(bench.run, said.append, lambda prompt: "", relink) is True
    assert [record.link.name for record in bench.records(Linked)] == ["new link"]
    assert bench.verdicts() == ["pass"] and len(bench.records(StepBegun)) == 1
    assert "the adapter vanished" in said[0]
    assert said[1:] == ["not there yet", "no such port", "The line is back."]


def raising(error):
    """Return a function that raises `error`."""

    def function(*given):
        raise error

    return function


@pytest.mark.parametrize(
    "typed, raised, reason",
    [
        ("", KeyboardInterrupt, "interrupted"),
        ("stop", LinkLostError, "stopped by the builder"),
        ("q", LinkLostError, "stopped by the builder"),
        (EOFError, LinkLostError, "stopped by the builder"),
        (KeyboardInterrupt, KeyboardInterrupt, "interrupted"),
    ],
)
def test_whoever_gives_up_a_lost_line_has_ended_the_run_file(tmp_path, typed, raised, reason):
    bench = RunBench(tmp_path, look("a"), observers=[Says()])
    bench.link.trouble = LinkLostError("the adapter vanished")

    ask = raising(typed) if isinstance(typed, type) else lambda prompt: typed
    with pytest.raises(raised):
        run_plain(bench.run, lambda text: None, ask, raising(KeyboardInterrupt))
    assert [record.reason for record in bench.records(Stopped)] == [reason]


def test_a_line_that_cannot_be_used_is_tried_again_or_the_run_file_ended(tmp_path):
    bench = RunBench(tmp_path, look("a"), observers=[Says()])
    bench.link.trouble = LinkError("the port refuses")
    said, asked = [], []

    def ask(prompt):
        asked.append(prompt)
        return ""

    link = FakeLink(bench.clock, name="again")
    assert run_plain(bench.run, said.append, ask, lambda: link) is True
    assert "Trouble with the line: the port refuses" in said[0] and "plugged in" not in asked[0]
    assert bench.verdicts() == ["pass"]


def test_who_gives_up_a_line_that_cannot_be_used_has_ended_the_run_file(tmp_path):
    bench = RunBench(tmp_path, look("a"), observers=[Says()])
    bench.link.trouble = LinkError("the port refuses")
    with pytest.raises(LinkError):
        run_plain(bench.run, lambda text: None, lambda prompt: "stop", raising(KeyboardInterrupt))
    assert [record.reason for record in bench.records(Stopped)] == ["stopped by the builder"]
