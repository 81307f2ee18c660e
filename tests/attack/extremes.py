"""Profiles at the edge of what can be written: the smallest, the largest, and what clashes."""

import functools
import pathlib
import tempfile

import yaml

from .good_inputs import PROFILE, SCRIPT
from .guarded import called
from .tables import Failed, failures_told, heading, row

LARGE_S = 20.0
"""Of processor time, for a profile of a megabyte."""
BIG = ("500 x 500", "1,000 keys", "4,000 keys", "10,000 keys")


def _sized(rows, columns):
    def change(document):
        document["display"] |= {"rows": str(rows), "columns": str(columns)}
        document["coordinates"] = {"coding": "decimal", "source": "invented"}
        for command in document["commands"]:
            if command["action"] == "address":
                command["bytes"] = 'DLE row ";" column "H"'

    return change


def _with_commands(*commands):
    """Return what puts more commands, (bytes, action), into a profile."""

    def change(document):
        for number, (coding, action) in enumerate(commands):
            command = {"name": f"more-{number}", "bytes": coding, "action": action}
            document["commands"].append(command | {"source": "invented"})

    return change


def _bell(number):
    """Return one of many codings, and what it does."""
    return f"ESC {0x20 + number // 90:02X}h {0x21 + number % 90:02X}h", "bell"


def _with_many_commands(document):
    """Give as many commands as there may be; faults of every pair of them would take minutes."""
    _with_commands(*map(_bell, range(290)))(document)
    del document["circuit"]


def _without(*keys):
    def change(document):
        for key in keys:
            del document[key]

    return change


def _without_keys(document):
    document["keyboard"] |= {"keys": [], "rows": "1", "columns": "1"}


def with_keys(count, document):
    """Give the keyboard so many keys, of as many codes as there are."""
    keys = [_key(number) for number in range(count)]
    document["keyboard"] |= {"keys": keys, "rows": "64", "columns": "64"}


def _key(number):
    return {
        "name": f"k{number}",
        "legend": f"K{number}",
        "row": str(number // 100),
        "offset": str(number % 100),
        "matrix": [str(number // 64), str(number % 64)],
        "code": f"{number % 128:02X}h",
    }


def _without_anything(document):
    for key in ("options", "keyboard", "circuit", "coordinates"):
        del document[key]
    document["commands"] = [one for one in document["commands"] if one["name"] == "clear"]


def _mute(document):
    document["options"] = []
    del document["circuit"]


EXTREMES = {
    "1 x 1": _sized(1, 1),
    "1 x 255": _sized(1, 255),
    "255 x 1": _sized(255, 1),
    "24 x 255": _sized(24, 255),
    "500 x 500": _sized(500, 500),
    "501 x 0": _sized(501, 0),
    "two commands of the same bytes": _with_commands(("STX", "home"), ("ESC STX", "home")),
    "a command that begins as another": _with_commands(("ESC", "home"), ("ESC ESC", "bell")),
    "a command that is a character": _with_commands(('"A"', "home"), ('" "', "clear")),
    "a command of no bytes": _with_commands(("", "home")),
    "a command of 10,000 bytes": _with_commands(("ESC " * 10_000, "home")),
    "300 commands, not simulated": _with_many_commands,
    "no options": _mute,
    "no keys": _without_keys,
    "no keyboard": _without("keyboard"),
    "no circuit": _without("circuit"),
    "one command alone": _without_anything,
    "1,000 keys": functools.partial(with_keys, 1_000),
    "4,000 keys": functools.partial(with_keys, 4_000),
    "10,000 keys": functools.partial(with_keys, 10_000),
}
"""Each by what is extreme: what changes the profile of the seeds."""


def attack(request):
    """Give each extreme profile to each command, print how they fared; return how many failed."""
    heading("Extreme profiles", *("profile", "commands", "refused", "failed"))
    names = [*EXTREMES][:: max(1, len(EXTREMES) // request.how_many(len(EXTREMES)))]
    return sum(_attack(name, request) for name in names)


def extreme_text(change):
    """Return the text of the profile of the seeds, made extreme by `change`."""
    document = yaml.load(PROFILE.read_bytes(), yaml.CBaseLoader)
    change(document)
    return yaml.safe_dump(document)


def _attack(name, request):
    data = extreme_text(EXTREMES[name]).encode()
    most_s = {"most_s": LARGE_S} if name in BIG else {}
    with tempfile.TemporaryDirectory(prefix="termprobe-attack-") as folder:
        path = pathlib.Path(folder, "extreme.yaml")
        path.write_bytes(data)
        tries = [*_tries(path, folder)]
        outcomes = [called(words, **most_s) for words in tries]
        outcomes += [
            called(["report", str(run), "--format", kind], **most_s)
            for run in pathlib.Path(folder).glob("*.jsonl")
            for kind in ("text", "json", "markdown")
        ]
    wrong = [f"{number}: {one.wrong}" for number, one in enumerate(outcomes) if one.wrong]
    row(name, len(outcomes), sum(one.code == 2 for one in outcomes), len(wrong))
    failures = [Failed(number, data, text) for number, text in enumerate(wrong)]
    failures_told(request.folder, f"extreme {name}".replace("/", "-"), failures)
    return len(wrong)


def _tries(path, folder):
    """Yield the words of each command that takes a profile."""
    of_profile = ["--profile", str(path)]
    yield ["profile", "check", str(path)]
    yield ["profile", "show", str(path)]
    yield ["script", "check", str(SCRIPT), *of_profile]
    yield ["script", "show", str(SCRIPT), *of_profile, "--steps"]
    yield ["script", "show", "acceptance", *of_profile]
    yield ["keys", *of_profile, "--list"]
    yield ["keys", *of_profile, "--list", "--quick"]
    yield ["explain", *of_profile, "--sent", "AB", "--seen", "AC"]
    yield ["render", *of_profile]
    yield ["sim", *of_profile, "--faults"]
    bench = [*of_profile, "--port", "sim:", "--board", "7", "--out", folder]
    yield ["run", *bench, "--script", str(SCRIPT)]
    yield ["session", "--plain", *bench, "--script", str(SCRIPT)]
    yield ["keys", *bench, "--wait", "0.1"]
