"""Checks of what else a display shows: national variants, half of its rows, a graphics set."""

from collections.abc import Iterable

from termprobe.findings import Findings, called, nearest, quoted, try_check
from termprobe.profile.model import Option, Profile
from termprobe.profile.variants import variants
from termprobe.yamlvalues import Text


def check_display_options(profile: Profile, findings: Findings) -> None:
    """Note what is wrong with `variants` and `rows` of options, and `graphics` of the display."""
    for option in profile.options:
        try_check(_check_positions, option, option.variants, findings)
        try_check(_check_positions, option, option.rows, findings)
        try_check(_check_variants, option, findings)
        try_check(_check_rows, profile, option, findings)
    for field in ("variants", "rows"):
        try_check(_check_only_one, profile, field, findings)
    try_check(_check_graphics, profile, findings)


def _check_positions(option: Option, named: Iterable[Text], findings: Findings) -> None:
    for position in named:
        if position not in option.positions:
            must = f"it must be a position of {called(option, 'the option')}"
            known = ", ".join(option.positions)
            near = nearest(position, option.positions)
            findings.add(position, f"{must} ({known}), not {quoted(position)}{near}")


def _check_variants(option: Option, findings: Findings) -> None:
    for variant in option.variants.values():
        if variant not in variants():
            must = f"a variant must be one of {', '.join(variants())}"
            findings.add(variant, f"{must}, not {quoted(variant)}{nearest(variant, variants())}")


def _check_rows(profile: Profile, option: Option, findings: Findings) -> None:
    rows, name = profile.display.rows, called(option, "the option")
    for lit in option.rows.values():
        if lit not in (rows, rows // 2) or (lit < rows and rows % 2):
            allowed = f"{rows}, all of the display's"
            if rows % 2 == 0:
                allowed += f", or {rows // 2}, half of them"
            findings.add(option.place.of("rows"), f"rows of {name} must be {allowed}, not {lit}")


def _check_only_one(profile: Profile, field: str, findings: Findings) -> None:
    having = [option for option in profile.options if getattr(option, field)]
    for option in having[1:]:
        findings.add(option.place.of(field), f"{field} must be given of one option only")


def _check_graphics(profile: Profile, findings: Findings) -> None:
    graphics, printing = profile.display.graphics, profile.display.printing
    has_set = any(command.action == "graphics-on" for command in profile.commands)
    if graphics is None:
        if has_set:
            must = 'display must have the key "graphics" where a command has the action graphics-on'
            findings.add(profile.display.place, must)
        return
    last = graphics.first + len(graphics.shows) - 1
    if not (graphics.shows and printing.first <= graphics.first <= last <= printing.last):
        codes = f"{printing.first:02X}h to {printing.last:02X}h"
        must = f"graphics must show characters for some of the codes {codes}"
        findings.add(graphics.place, f"{must}, not for {graphics.first:02X}h to {last:02X}h")
