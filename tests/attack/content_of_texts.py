"""Hostile texts in what a person writes or a device says: files, words, ports, bytes, a console."""

import dataclasses
import functools
import io
import shlex
import types

import yaml

from helpers.bench_state import rows_of
from termprobe.cli.monitored import Monitored
from termprobe.clock import CrankedClock
from termprobe.errors import TermprobeError
from termprobe.journal.reading import parse
from termprobe.line.bursts import CAME
from termprobe.link.base import LineFormat
from termprobe.plan.compile import compile_plan
from termprobe.profile.load import load as load_profile
from termprobe.script.load import load as load_script
from termprobe.session.draw.console_rows import draw_console
from termprobe.session.mode_table import mode_of
from termprobe.session.opening import first_state

from .good_inputs import PROFILE, SCRIPT
from .guarded import called, guarded
from .hostile import wrong_with, wrong_with_text
from .hostile_runs import FAULTY_BOARD, hostile_run, run_documents, run_file

TRY = ["--board", "7", "--port", FAULTY_BOARD]
KINDS = ("text", "html", "markdown", "json", "junit")


def _with_leaves_changed(chance, text, path):
    """Return a YAML file in which `text` stands in or for some of its texts."""
    document = yaml.load(path.read_bytes(), yaml.CBaseLoader)
    share = chance.choice((0.02, 0.1, 0.5))
    changed = _changed(document, chance, text, share)
    return yaml.safe_dump(changed, default_style='"', allow_unicode=chance.random() < 0.5)


def _changed(value, chance, text, share):
    if isinstance(value, dict):
        return {key: _changed(own, chance, text, share) for key, own in value.items()}
    if isinstance(value, list):
        return [_changed(own, chance, text, share) for own in value]
    if chance.random() >= share:
        return value
    return chance.choice((text, value + text))


def _bytes(text):
    return text.encode("utf-8", "surrogatepass")


def _profile_or_script(name, chance, text, folder):
    """Check, show and try a profile or a script, then report on the run."""
    paths = {"profile": PROFILE, "script": SCRIPT}
    given = _bytes(_with_leaves_changed(chance, text, paths[name]))
    paths[name] = folder / "hostile.yaml"
    paths[name].write_bytes(given)
    profile, script = ["--profile", str(paths["profile"])], ["--script", str(paths["script"])]
    for words in (
        [name, "check", str(paths[name]), *profile * (name == "script")],
        [name, "show", str(paths[name]), *profile * (name == "script")],
        ["script", "show", str(paths["script"]), *profile, "--steps"],
        ["run", *profile, *script, *TRY, "--out", str(folder)],
    ):
        outcome = called(words)
        if outcome.wrong or outcome.code == 2:
            return outcome.wrong, given
    return _wrong_with_reports(chance, folder), given


def _wrong_with_reports(chance, folder):
    """Return what is wrong with a report of the run in a folder."""
    kind = chance.choice(KINDS)
    outcome = called(["report", *map(str, folder.glob("*.jsonl")), "--format", kind])
    return outcome.wrong or wrong_with(kind, outcome.told)


def _label(chance, text, folder):
    """Name board, builder, revision and the rest of a run so."""
    options = ("--board", "--builder", "--revision", "--fitted", "--batch")
    labels = [f"{option}={text}" for option in options]
    words = ["run", "--profile", str(PROFILE), "--script", str(SCRIPT), "--port", FAULTY_BOARD]
    outcome = called([*words, "--board", "7", *labels, "--out", str(folder)])
    given = _bytes(text)
    if outcome.wrong or outcome.code == 2:
        return outcome.wrong, given
    return _wrong_with_reports(chance, folder), given


def _remedies(chance, text, folder):
    (folder / "a.run.jsonl").write_bytes(run_file(run_documents()))
    words = ["errata", str(folder), "--practice", "--remedies", str(folder / "remedies.yaml")]
    called(words)
    path = folder / "remedies.yaml"
    document = yaml.load(path.read_bytes(), yaml.CBaseLoader)
    for entry in document["remedies"]:
        chosen = chance.sample(sorted(entry), 3)
        entry |= dict.fromkeys(chosen, text)
    given = _bytes(yaml.safe_dump(document, default_style='"'))
    path.write_bytes(given)
    kind = chance.choice(("html", "markdown", "text", "json"))
    outcome = called([*words, "--format", kind])
    if outcome.wrong or outcome.code == 2:
        return outcome.wrong, given
    return wrong_with(kind, outcome.told), given


def _answers(chance, text, folder):
    answers = {"supply": "5.02 V", "lamp": "yes", text: text} | {chance.choice("abc"): text}
    answers |= {chance.choice(("supply", "lamp")): chance.choice((text, "5" + text))}
    given = _bytes(yaml.safe_dump(answers, default_style='"'))
    path = folder / "answers.yaml"
    path.write_bytes(given)
    words = ["run", "--profile", str(PROFILE), "--script", str(SCRIPT), *TRY, "--out", str(folder)]
    return called([*words, "--answers", str(path)]).wrong, given


def _log(chance, text, folder):
    given = b'0.0 sent "HI"\n' + _bytes(f'0.1 sent "{text}"{text}\n{text}')
    path = folder / "a.log"
    path.write_bytes(given)
    words = [["render"], ["explain", "--seen", text]]
    told = [*chance.choice(words), "--profile", str(PROFILE), "--from", str(path)]
    return called(told).wrong, given


def _explain(chance, text, folder):
    words = {"--sent": "AB", "--seen": "AA", "--where": "row 0", "--keys": "1>!"}
    chosen = chance.sample(sorted(words), 2)
    words |= dict.fromkeys(chosen, text)
    joined = [f"{option}={value}" for option, value in words.items()]
    if chance.random() < 0.5:
        joined.append("--json")
    return called(["explain", "--profile", str(PROFILE), *joined]).wrong, _bytes(text)


def _dump(chance, text, folder):
    """Let a program print it for the screen of the board, or complain by it."""
    path = folder / "screen"
    path.write_bytes(_bytes(text))
    program = chance.choice((f"cat {path}", f"sh -c 'cat {path} >&2; false'", shlex.quote(text)))
    words = ["run", "--profile", str(PROFILE), "--script", str(SCRIPT), *TRY, "--out", str(folder)]
    wrong = called([*words, f"--dump={program}"]).wrong
    return wrong or _wrong_with_reports(chance, folder), _bytes(text)


def _adapter(chance, text, folder):
    """Let an adapter call itself so."""
    text = _bytes(text).decode("utf-8", "surrogateescape")
    port = types.SimpleNamespace(
        device=f"/dev/{text}",
        description=text,
        manufacturer=text,
        product=text,
        vid=0x1234,
        pid=0x5678,
        location=text,
        hwid=text,
        serial_number=text,
        name=text,
    )
    import serial.tools.list_ports as listing

    before = listing.comports
    listing.comports = lambda *_: [port]
    try:
        words = chance.choice((["ports"], ["ports", "--json"], ["session", "--plain"]))
        return called(words, b"\n" * 9).wrong, _bytes(text)
    finally:
        listing.comports = before


class _Console(io.StringIO):
    """What is written to a console of 40 columns."""

    def isatty(self):
        return True


def _monitored(chance, text, folder):
    """Let the board send it, while the line is watched."""
    stream = chance.choice((io.StringIO, _Console))()
    log = io.StringIO()
    monitored = Monitored(LineFormat(9600), CrankedClock(), stream, log)
    for piece in (_bytes(text), bytes(range(256))):
        monitored.take(CAME, piece, chance.choice(("", "framing")))
    monitored.end()
    told = stream.getvalue().replace("\x1b[K", "").replace("\r", "")
    return wrong_with_text(told) or wrong_with_text(log.getvalue()), _bytes(text)


def _prompts(chance, text, folder):
    """Type it at every prompt of a session, and as a note."""
    given = _bytes(text.replace("\n", " ") + "\n")
    typed = (given + chance.choice((b"y\n", b"\n", b"n\n"))) * 8
    words = ["--profile", str(PROFILE), "--script", str(SCRIPT), *TRY, "--out", str(folder)]
    outcome = called([chance.choice(("session", "run")), "--plain", *words], typed)
    if outcome.wrong or outcome.code == 2:
        return outcome.wrong, given
    return _wrong_with_reports(chance, folder), given


def _full_screen(chance, text, folder):
    """Draw the full-screen session of a profile, a script and a run with it, in any mode."""
    profile, script = folder / "profile.yaml", folder / "script.yaml"
    profile.write_bytes(_bytes(_with_leaves_changed(chance, text, PROFILE)))
    script.write_bytes(_bytes(_with_leaves_changed(chance, text, SCRIPT)))
    given = hostile_run(chance, text, run_documents())
    recording = parse(given)

    def loaded(load, path, usual):
        try:
            return load(str(path))
        except TermprobeError:
            return load(str(usual))

    def draw():
        made = loaded(load_profile, profile, PROFILE)
        try:
            plan = compile_plan(made, loaded(load_script, script, SCRIPT))
        except TermprobeError:
            return 0
        header = recording.header
        board, name = header.board, header.link.name
        state = first_state(
            plan, made, LineFormat(4800), board, name, recording.records, path=text, ending=[text]
        )
        for step in plan.steps:
            mode = mode_of(step).name
            drawn = draw_console(
                dataclasses.replace(state, step_id=step.id, mode=mode),
                chance.choice((20, 80, 170)),
                24,
            )
            print("\n".join(rows_of(drawn)))
        return 0

    return guarded(draw).wrong, given


WAYS = {
    "profile: check, show, run": functools.partial(_profile_or_script, "profile"),
    "script: check, show, run": functools.partial(_profile_or_script, "script"),
    "names: run, report": _label,
    "remedies: errata": _remedies,
    "answers: run": _answers,
    "log: render, explain": _log,
    "words: explain": _explain,
    "dump: run, report": _dump,
    "adapter: ports, session": _adapter,
    "bytes: monitor": _monitored,
    "typed: session, run": _prompts,
    "drawn: full-screen session": _full_screen,
}
