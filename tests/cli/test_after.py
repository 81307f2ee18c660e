"""A new run asks first what failed in the one before, and says what has changed."""

import dataclasses
import json
import shutil

import pytest

from helpers.program import called, complaint, run_file
from termprobe.cli.after import comes_after, run_before
from termprobe.cli.recorded import load_run
from termprobe.cli.request import BenchRequest
from termprobe.errors import FileError, UsageError
from termprobe.journal.comes_after import ComesAfter
from termprobe.journal.reading import read
from termprobe.journal.records import Answered, BoardUnderTest

QUICK = ("--profile", "club-16x64", "--script", "quick", "--board", "0007", "--revision", "B")
QUICK += ("--batch", "2026-07")
DEAD_UP = "sim:decoder/dead/up"


@pytest.fixture(name="before", scope="module")
def _before(tmp_path_factory):
    """Return the run file of a board on which one command is dead."""
    folder = tmp_path_factory.mktemp("before")
    done = called("run", *QUICK, "--port", DEAD_UP, "--out", folder)
    assert done.returncode == 1, done.stderr
    return run_file(folder)


@pytest.fixture(name="again", scope="module")
def _again(before, tmp_path_factory):
    """Return (the ended run after it, its run file): mended, but the board does not scroll."""
    folder = tmp_path_factory.mktemp("again")
    done = called("run", "--after", before, "--port", "sim:scroll/dead", "--out", folder, "--json")
    return done, run_file(folder)


def asked(path):
    return [record.step for record in read(path).records if isinstance(record, Answered)]


def test_what_failed_is_asked_first_then_what_shares_a_block_then_the_rest(before, again):
    done, path = again
    assert done.returncode == 1, done.stderr
    after = next(one for one in read(path).records if isinstance(one, ComesAfter))
    assert after.run == before.name and after.failed == after.first == ("commands", "edges")
    assert after.blocks == ("decoder",) and "slopes" in after.sharing
    assert asked(path)[:2] == ["commands", "edges"] != asked(before)[:2]
    in_order = [step for step in (*after.first, *after.sharing) if step in asked(path)]
    assert asked(path)[: len(in_order)] == in_order, "looks that others cover are not asked"
    assert len(set(asked(path))) == len(asked(path)), "each step is asked once"
    said = " ".join(done.stderr.split())
    assert f"In {before.name} 2 steps failed. Asked first: what failed there; next" in said


def test_the_report_tells_what_has_changed_and_a_new_fault_first(before, again):
    done, path = again
    changed = json.loads(done.stdout)["after"]
    assert changed["failed_then_pass_now"] == ["commands"]
    assert changed["failed_then_fail_now"] == ["edges"]
    assert changed["passed_then_fail_now"] == ["slopes"]
    told = called("report", path).stdout
    assert told.splitlines()[1].startswith(f"NEW since {before.name}: 1 step passed there")
    assert f"What changed since {before.name}\n  passed then, FAIL now: 1 step: " in told


def test_profile_script_and_board_are_those_of_the_run_before(before, again):
    old, new = read(before).header, read(again[1]).header
    assert new.board == old.board and (new.board.revision, new.board.batch) == ("B", "2026-07")
    assert (new.plan_hash, new.chosen) == (old.plan_hash, old.chosen)


def test_a_run_that_stopped_goes_on_in_the_same_order(again, tmp_path):
    path = tmp_path / "cut.run.jsonl"
    lines = again[1].read_bytes().splitlines(keepends=True)
    last = next(n for n, line in enumerate(lines) if b'"answer"' in line)
    path.write_bytes(b"".join(lines[: last + 1]))
    done = called("run", "--resume", path, "--port", "sim:", "--json")
    assert asked(path)[1] == "edges" and json.loads(done.stdout)["after"]["run"]


def test_where_nothing_failed_that_is_said_and_all_is_asked_in_order(tmp_path):
    first, then = tmp_path / "first", tmp_path / "then"
    called("run", *QUICK, "--port", "sim:", "--out", first)
    done = called("run", "--after", run_file(first), "--port", "sim:", "--out", then)
    assert done.returncode == 0 and "nothing failed: all is asked" in done.stderr
    assert asked(run_file(then)) == asked(run_file(first))
    assert "nothing: what passed then passes now" in done.stdout


def test_a_walk_over_the_keys_begins_with_the_press_that_failed(tmp_path):
    first, then = tmp_path / "first", tmp_path / "then"
    words = ("--profile", "club-16x64", "--board", "7", "--quick")
    called("keys", *words, "--port", "sim:key-matrix/row-open/1", "--out", first)
    failed = load_run(run_file(first)).verdict
    bad = [step.id for step in failed.steps if step.verdict == "fail"]
    done = called("keys", "--after", run_file(first), "--port", "sim:", "--out", then, "--json")
    assert done.returncode == 0 and bad == asked(run_file(then))[: len(bad)], done.stderr
    assert sorted(asked(run_file(then))) == sorted(asked(run_file(first))), "the same few presses"
    words = ("--port", "sim:", "--after", run_file(first))
    assert "is a walk over the keys; `termprobe keys`" in complaint(called("run", *words), 2)


@pytest.mark.parametrize(
    "fields, told",
    [
        ({"board": BoardUnderTest("8")}, "--board must be 0007 on --after, as in .*, not 8"),
        ({"port": "/dev/ttyUSB0"}, "practice on a simulated one, which says nothing of a real"),
        ({"resume": "x"}, "only one of them may be given"),
        ({"is_of_keys": True}, "--after must name a walk over the keys, not a run of the script"),
    ],
)
def test_what_does_not_fit_is_refused(before, fields, told):
    with pytest.raises(UsageError, match=told):
        run_before(BenchRequest(**{"port": "sim:", "after": str(before)} | fields))


@pytest.mark.parametrize("kind, other", [("script", "acceptance"), ("profile", "singlebyte-24x80")])
def test_another_profile_or_script_is_refused(before, kind, other, tmp_path):
    words = ("--after", before, "--port", "sim:", f"--{kind}", other, "--out", tmp_path)
    told = complaint(called("run", *words), 2)
    assert f"--{kind} must be " in told and "on --after, as the run was begun" in told
    assert not list(tmp_path.iterdir())


def test_a_damaged_run_is_refused(before, tmp_path):
    path = shutil.copy(before, tmp_path / "x.run.jsonl")
    with open(path, "r+b") as file:
        file.seek(-20, 2)
        file.write(b"#")
    with pytest.raises(FileError, match=r"must be whole on --after.*byte \d+.*termprobe report"):
        run_before(BenchRequest("sim:", after=str(path)))
    assert run_before(BenchRequest("sim:")) is None


def test_a_step_that_is_not_what_it_was_is_not_compared(before):
    earlier = load_run(before)
    steps = [
        dataclasses.replace(step, hash="other") if step.id == "edges" else step
        for step in earlier.plan.steps
    ]
    plan = dataclasses.replace(earlier.plan, steps=tuple(steps))
    assert comes_after(earlier, plan).failed == ("commands",)
