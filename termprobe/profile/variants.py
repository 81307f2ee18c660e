"""The national variants of ISO 646: which characters a set shows for the twelve open codes.

They are the rows of profiles/variants/iso-646.yaml, known by their ids. All other printing codes
show the same characters in every variant.
"""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from functools import cache

from termprobe import yamlfile
from termprobe.findings import Findings, quoted, try_check
from termprobe.yamlvalues import ByteText, Mapped, Text

FOLDER, FILE = "profiles/variants", "iso-646.yaml"
NO_VARIANT = ""
"""Stands for a set of which nothing is said: it shows ASCII."""


@dataclass(frozen=True)
class Variant(Mapped):
    """One national variant."""

    id: Text
    title: str
    shows: Text
    """The characters of the open codes in order, with blanks between."""
    charmap: str
    """What the GNU C library calls it."""
    source: str


@dataclass(frozen=True)
class VariantFile(Mapped):
    """All of them."""

    id: Text
    title: str
    codes: ByteText
    """The open codes, in ascending order."""
    variants: tuple[Variant, ...]


def parse(text: str, name: str) -> VariantFile:
    """Return the VariantFile written in `text`; `name` stands in the findings.

    Raise FileError with every finding.
    """
    return yamlfile.build(text, name, VariantFile, (_check,))


@cache
def shipped_variants() -> VariantFile:
    """Return those that come with termprobe."""
    path = yamlfile.shipped(FOLDER) / FILE
    return parse(yamlfile.read_text(path), str(path))


@cache
def variants() -> Mapping[str, Variant]:
    """Return every variant by its id."""
    return {str(variant.id): variant for variant in shipped_variants().variants}


def open_codes() -> bytes:
    """Return the codes that show other characters from variant to variant, in ascending order."""
    return bytes(shipped_variants().codes)


def shown_as(text: str, variant_id: str) -> str:
    """Return what `text`, printable ASCII, looks like in a variant; other characters stay."""
    return text.translate(_from_ascii(variant_id))


def in_ascii(text: str, variant_id: str) -> str:
    """Return the ASCII characters whose codes show `text` in a variant.

    A character that no code shows in it becomes U+FFFD.
    """
    return text.translate(_to_ascii(variant_id))


@cache
def _from_ascii(variant_id: str) -> Mapping[int, str]:
    if variant_id == NO_VARIANT:
        return {}
    shown = variants()[variant_id].shows.split(" ")
    pairs = zip(open_codes(), shown, strict=True)
    return {code: character for code, character in pairs if chr(code) != character}


@cache
def _to_ascii(variant_id: str) -> Mapping[int, str]:
    table = _from_ascii(variant_id)
    without_code = dict.fromkeys(table, "\ufffd")
    return without_code | {ord(character): chr(code) for code, character in table.items()}


def _check(file: VariantFile, findings: Findings) -> None:
    for variant in file.variants:
        try_check(_check_shown, file, variant, findings)
    _check_ids((variant.id for variant in file.variants), findings)


def _check_shown(file: VariantFile, variant: Variant, findings: Findings) -> None:
    shown, count = variant.shows.split(" "), len(file.codes)
    if len(shown) != count or any(len(character) != 1 for character in shown):
        must = f"shows of {variant.id!s} must be {count} characters"
        findings.add(variant.shows, f"{must} with blanks between, not {quoted(variant.shows)}")
    elif len(set(shown)) < count:
        must = f"shows of {variant.id!s} must be different characters"
        findings.add(variant.shows, f"{must}, not {quoted(variant.shows)}")


def _check_ids(ids: Iterable[Text], findings: Findings) -> None:
    seen: set[str] = set()
    for one in ids:
        if one in seen:
            findings.add(one, f"each variant must stand once, not {quoted(one)} again")
        seen.add(one)
