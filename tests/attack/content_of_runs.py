"""Hostile texts in run files: each command that reads them, each format that it prints."""

import functools

from .guarded import called
from .hostile import wrong_with
from .hostile_runs import hostile_run, run_documents, run_file, soak_documents


def _told(words, kind):
    """Return what is wrong with how the program answers to `words` by a page of a kind."""
    outcome = called(words)
    if outcome.wrong or outcome.code == 2:
        return outcome.wrong
    return wrong_with(kind, outcome.told)


def _report(kind, chance, text, folder):
    path = _written(folder, "a", given := hostile_run(chance, text, run_documents()))
    return _told(["report", path, "--format", kind], kind), given


def _written(folder, name, data):
    path = folder / f"{name}.run.jsonl"
    path.write_bytes(data)
    return str(path)


def _into_file(chance, text, folder):
    """Write a report into a file, as UTF-8."""
    kind = chance.choice(("text", "html", "markdown", "json", "junit"))
    path = _written(folder, "a", given := hostile_run(chance, text, run_documents()))
    page = folder / "page"
    wrong = called(["report", path, "--format", kind, "-o", str(page)]).wrong
    if wrong or not page.exists():
        return wrong, given
    return wrong_with(kind, page.read_text(encoding="utf-8")), given


def _errata(kind, chance, text, folder):
    given = hostile_run(chance, text, run_documents())
    for number in range(3):
        _written(folder, f"{number}", given)
        _written(folder, f"good{number}", run_file(run_documents()))
    words = ["errata", str(folder), "--format", kind, "--practice"]
    if chance.random() < 0.5:
        words += ["--remedies", str(folder / "remedies.yaml")]
    wrong = _told(words, kind)
    return wrong or _told(words, kind), given


def _compare(kind, chance, text, folder):
    path = _written(folder, "a", given := hostile_run(chance, text, run_documents()))
    paths = [path, _written(folder, "good", run_file(run_documents()))]
    chance.shuffle(paths)
    return _told(["compare", *paths, "--format", kind], kind), given


def _diagnose(kind, chance, text, folder):
    path = _written(folder, "a", given := hostile_run(chance, text, run_documents()))
    return _told(["diagnose", path, *["--json"] * (kind == "json")], kind), given


def _going_on(chance, text, folder):
    """Go on with a run, and begin one after it."""
    path = _written(folder, "a", given := hostile_run(chance, text, run_documents()))
    command = chance.choice((["run"], ["keys", "--wait", "0.1"], ["session", "--plain"]))
    option = chance.choice(("--resume", "--after"))
    words = [*command, option, path, "--port", "sim:", "--out", str(folder)]
    return called(words).wrong, given


def _soak(chance, text, folder):
    path = _written(folder, "a", given := hostile_run(chance, text, soak_documents()))
    kind = chance.choice(("text", "json"))
    wrong = _told(["report", path, "--format", kind], kind)
    going_on = ["soak", "--resume", path, "--port", "loop://"]
    return wrong or called(going_on).wrong, given


WAYS = {
    **{
        f"run file: report {kind}": functools.partial(_report, kind)
        for kind in ("text", "markdown", "html", "json", "junit")
    },
    "run file: report -o": _into_file,
    **{
        f"run file: errata {kind}": functools.partial(_errata, kind)
        for kind in ("text", "markdown", "html", "json")
    },
    **{
        f"run file: compare {kind}": functools.partial(_compare, kind)
        for kind in ("text", "html", "json")
    },
    **{
        f"run file: diagnose {kind}": functools.partial(_diagnose, kind)
        for kind in ("text", "json")
    },
    "run file: gone on with": _going_on,
    "soak: report, gone on with": _soak,
}
