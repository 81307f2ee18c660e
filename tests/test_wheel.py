"""An installed termprobe, far from its checkout, finds its files and does the whole job."""

import os
import pathlib
import subprocess
import sys
import venv

import pytest

ROOT = pathlib.Path(__file__).resolve().parent.parent


@pytest.fixture(scope="module")
def installed(tmp_path_factory):
    """Return the path of `termprobe` in a clean environment that has the built wheel."""
    folder = tmp_path_factory.mktemp("wheel")
    subprocess.run(
        [sys.executable, "-m", "build", "--wheel", "--outdir", str(folder), str(ROOT)],
        check=True,
        capture_output=True,
        text=True,
    )
    venv.create(folder / "clean")
    python = folder / "clean" / "bin" / "python"
    wheel = next(folder.glob("*.whl"))
    subprocess.run(
        [sys.executable, "-m", "pip", "--python", python, "install", "-q", wheel],
        check=True,
        capture_output=True,
    )
    return folder / "clean" / "bin" / "termprobe"


def call(command, *words, **fields):
    environment = {name: value for name, value in os.environ.items() if name != "PYTHONPATH"}
    return subprocess.run(
        [command, *words],
        capture_output=True,
        text=True,
        stdin=subprocess.DEVNULL,
        env=environment,
        check=False,
        **fields,
    )


@pytest.mark.slow
def test_profiles_and_scripts_are_found_by_id(installed, tmp_path):
    assert "singlebyte-24x80" in call(installed, "profile", "list", cwd=tmp_path).stdout
    assert "acceptance" in call(installed, "script", "list", cwd=tmp_path).stdout


def test_the_demonstration_finds_its_fault(installed, tmp_path):
    done = call(installed, "demo", "--out", str(tmp_path), cwd=tmp_path)
    assert done.returncode == 0, done.stderr
    assert "address lines 2 (U21 pin 5) and 5 (U21 pin 2)" in done.stdout
    assert "The fault was found: " in done.stdout
    assert [path.suffixes[-2:] for path in tmp_path.glob("*.jsonl")] == [[".run", ".jsonl"]]


def test_the_wheel_holds_no_tests_and_nothing_is_read_from_the_checkout(installed, tmp_path):
    done = call(installed, "profile", "check", "singlebyte-24x80", cwd=tmp_path)
    assert done.returncode == 0
    site = next((installed.parent.parent / "lib").glob("python*/site-packages"))
    assert (
        not (site / "tests").exists()
        and (site / "termprobe" / "shipped" / "scripts" / "acceptance.yaml").exists()
    )
    kept = site / "termprobe" / "report" / "templates"
    assert {"base.html", "page.css"} <= {path.name for path in kept.iterdir()}
