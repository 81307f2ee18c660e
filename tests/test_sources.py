"""Facts say where they come from: a document, memory, common practice, or an own estimate."""

import ast
import re

import pytest

from helpers.mistakes import IDS
from helpers.paths import ROOT
from termprobe import yamlfile

SECTIONS = {
    "BEL": "8.3.3",
    "BS": "8.3.5",
    "CPR": "8.3.14",
    "CR": "8.3.15",
    "CUB": "8.3.18",
    "CUD": "8.3.19",
    "CUF": "8.3.20",
    "CUP": "8.3.21",
    "CUU": "8.3.22",
    "DA": "8.3.24",
    "DCH": "8.3.26",
    "DL": "8.3.32",
    "DSR": "8.3.35",
    "ED": "8.3.39",
    "EL": "8.3.41",
    "FF": "8.3.51",
    "GRCM": "7.2.8",
    "HT": "8.3.60",
    "HTS": "8.3.62",
    "HVP": "8.3.63",
    "ICH": "8.3.64",
    "IL": "8.3.67",
    "IND": "F.8.2",
    "LF": "8.3.74",
    "NEL": "8.3.86",
    "RI": "8.3.104",
    "SGR": "8.3.117",
    "TBC": "8.3.154",
    "VT": "8.3.161",
}
"""ECMA-48, 5th edition: where each function stands. Copied by hand."""
DOCUMENTS = (
    r"ECMA-48 ",
    r"RFC 20 ",
    r"terminfo capability ",
    r"ITU-T V\.24, ",
    r"ITU-T V\.28 ",
    r"data sheets of ",
    r"common practice",
    r"unverified",
)
ESTIMATES = {
    "diagnosis/key_hypothesis.py": ("WEIGHTS", "WEIGHT_OF_HEALTHY"),
    "diagnosis/key_ranking.py": ("SLIP", "ANYTHING"),
    "verdict/listening.py": ("BOUNCE_S", "REPEATS_AFTER_S"),
    "board/keyboard.py": ("CONTACT_BOUNCE_S", "REPEAT_AFTER_S"),
    "plan/effort.py": ("DECIDE_S", "GLANCE_S", "KEY_S", "TYPE_S", "AT_ONCE"),
    "observer/press.py": ("PRESS_QUIET_S",),
}
"""File of termprobe/: the numbers in it that no arithmetic gives."""
SAYS_WHERE_FROM = re.compile(
    r"from memory|own\s+estimate|keystroke-level\s+model|common\s+practice", re.IGNORECASE
)


def sources():
    """Return every source that the shipped profiles and scripts name."""
    paths = [yamlfile.find(name, "profiles") for name in IDS]
    paths += [yamlfile.find(name, "scripts") for name in yamlfile.shipped_ids("scripts")]
    text = "\n".join(path.read_text(encoding="utf-8") for path in paths)
    folded = re.findall(r"source: >-\n\s+(\S.*)", text)
    return folded + re.findall(r"source: \"?([^>\s\"].*?)\"?$", text, re.MULTILINE)


def test_every_source_names_a_document_or_says_that_there_is_none():
    found = sources()
    assert len(found) > 60
    for source in found:
        assert any(re.match(document, source) for document in DOCUMENTS), source
        assert not re.search(r"\bentr(y|ies) [a-z]+ ?\(|\bentry\b", source), source


def test_functions_stand_where_the_standard_has_them():
    cited = re.findall(r"(?:annex )?([F0-9]+\.[0-9.]+) \(([A-Z]+)", "\n".join(sources()))
    of_ecma = [(section, name) for section, name in cited if section != "5.2"]
    assert len(of_ecma) > 40
    for section, name in of_ecma:
        assert SECTIONS[name] == section, name


def described(path):
    """Return name -> the text under it, of what a file of the program assigns."""
    body = ast.parse(path.read_text(encoding="utf-8")).body
    found = {}
    for statement, after in zip(body, body[1:], strict=False):
        if isinstance(statement, ast.Assign) and isinstance(after, ast.Expr):
            names = [node.id for node in ast.walk(statement.targets[0]) if hasattr(node, "id")]
            found |= dict.fromkeys(names, ast.literal_eval(after.value))
    return found


@pytest.mark.parametrize("file", ESTIMATES)
def test_numbers_that_no_arithmetic_gives_say_where_they_come_from(file):
    texts = described(ROOT / "termprobe" / file)
    for name in ESTIMATES[file]:
        assert SAYS_WHERE_FROM.search(texts[name]), name
