"""`termprobe keys` in a real console: a hand on the board, keys of the host, a kill, a report."""

import json
import subprocess
import time

import pytest

from helpers.served import TERMPROBE, ServedBoard
from helpers.tmux import IS_HERE, Tmux
from termprobe.journal.reading import read

UNHURRIED_S = 0.2
"""Between two presses, so that no code is taken for one that a press before it gave too late."""

pytestmark = pytest.mark.skipif(not IS_HERE, reason="tmux is not installed")


def words(folder, port, *more):
    return (
        *TERMPROBE,
        "keys",
        "--profile",
        "singlebyte-24x80",
        "--port",
        port,
        "--board",
        "0007",
        "--out",
        folder / "runs",
        *more,
    )


def run_file(folder):
    (path,) = (folder / "runs").glob("*.run.jsonl")
    return path


def quick():
    """Return [(what to press for `termprobe sim`, id of the press), ...] of the quick walk."""
    done = subprocess.run(
        [*TERMPROBE, "keys", "--profile", "singlebyte-24x80", "--list", "--quick", "--json"],
        capture_output=True,
        text=True,
        check=True,
    )
    return [
        (
            " ".join((":press", one["key"], *one["modifiers"])),
            "+".join((f"press/{one['key']}", *one["modifiers"])),
        )
        for one in json.loads(done.stdout)
    ]


def test_a_walk_with_slips_a_kill_and_a_bouncing_key(tmp_path):
    presses = quick()
    bouncing = next(press for _, press in reversed(presses[:-1]) if "+" not in press)
    with ServedBoard(
        tmp_path, f"key-matrix/key-bounces/{bouncing.removeprefix('press/')}"
    ) as board:
        with Tmux(words(tmp_path, board.port, "--quick"), 80, 24, tmp_path) as console:
            console.wait("Press enter to begin")
            console.press("Enter", then=["let go", f"0 done, 0 failed, {len(presses)} left"])
            board.type(":press z")
            console.wait("WRONG", "the code of key", "1 done, 1 failed", "x undo")
            console.press("x", then=["undone; press it again", "0 done, 0 failed", "x undo"])
            board.type(presses[0][0])
            console.wait("right", "1 done, 0 failed", "m no code")
            console.press("m", then=["no code received, not", "2 done, 1 failed", "s skip"])
            console.press("s", then=["Why skip"])
            console.press("n", "o", "Enter", then=["3 done, 1 failed"])
            for line in console.text().split("\n"):
                assert len(line) <= 80
        # the console has been killed with the program in it
        path = run_file(tmp_path)
        assert not read(path).damages
        with Tmux(
            (*TERMPROBE, "keys", "--resume", path, "--port", board.port), 100, 32, tmp_path
        ) as console:
            console.wait(f"3 of {len(presses)} steps have an answer already")
            console.press("Enter", then=["and let go"])
            for place, (order, press) in enumerate(presses[3:], 4):
                time.sleep(UNHURRIED_S)
                board.type(order)
                console.wait(f"{place} done")
                if press == bouncing:
                    console.wait("WRONG", "enter keep it")
                    console.press("Enter")
            console.wait("Every step has its verdict")
            console.press("q", then=["Suspects", "makes contact twice"])
            assert console.exit_code() == 1
    report = json.loads(
        subprocess.run(
            [*TERMPROBE, "report", path, "--format", "json"],
            capture_output=True,
            text=True,
            check=False,
        ).stdout
    )
    found = {step["id"]: step["verdict"] for step in report["steps"]}
    assert found == {press: "pass" for _, press in presses} | {
        presses[1][1]: "fail",
        presses[2][1]: "skipped",
        bouncing: "fail",
    }


def test_any_key_in_any_order_is_covered_on_the_screen(tmp_path):
    with (
        ServedBoard(tmp_path) as board,
        Tmux(words(tmp_path, board.port, "--order", "free"), 80, 24, tmp_path) as console,
    ):
        console.wait("Press enter to begin")
        console.press("Enter", then=["Press any key that is not pressed yet"])
        for place, key in enumerate(("z", "space", "home"), 1):
            board.type(f":press {key}")
            console.wait(f"{place} done, 0 failed")
        board.type(":press z")
        console.wait("which no press left sends")
        console.press("C-c", then=["termprobe keys --resume", "interrupted"])
        assert console.exit_code() == 130
