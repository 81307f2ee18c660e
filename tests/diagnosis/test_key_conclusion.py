"""Concluding from presses: every single fault of both keyboards is named first, slips of a person allowed for."""

import random

import pytest

from termprobe.board.faults.catalogue import keyboard_catalogue
from termprobe.board.keyboard_board import simulate
from termprobe.diagnosis.key_hypotheses import HEALTHY, hypotheses
from termprobe.diagnosis.key_conclusion import conclude, outcomes_of, suspects_document
from termprobe.diagnosis.key_sets import quick_presses
from termprobe.plan.presses import coded_presses
from termprobe.profile.load import load
from termprobe.report.key_suspects import render

PROFILES = [load("singlebyte-24x80"), load("ecma48-24x80")]
IDS = [profile.id for profile in PROFILES]


def walked(profile, *faults, presses=None, times=1):
    """Return what a walk over a simulated keyboard gives, as conclude() wants it."""
    keyboard = simulate(profile, faults)
    came = {}
    for press in coded_presses(profile):
        if presses is None or press.id in presses:
            for _ in range(times):
                data = b"".join(
                    data for _, data in keyboard.press(press.key, frozenset(press.modifiers))
                )
                came.setdefault(press.id, []).append((data, ""))
    return came


def visible_faults(profile):
    """Return the catalogue's faults that some coded press shows: diodes need chords, BREAK sends no code."""
    found, listed = hypotheses(profile), keyboard_catalogue(profile)
    return [one.name for one in found[1:] if one.sends != found[0].sends and one.name in listed]


@pytest.mark.parametrize("profile", PROFILES, ids=IDS)
def test_the_true_fault_is_first_after_the_full_walk(profile):
    faults = visible_faults(profile)
    of_each_kind = {name.split("/")[1]: name for name in faults}
    chosen = [
        *of_each_kind.values(),
        *random.Random(7).sample(faults, 45),
    ]  # tests/benchmarks/keyboard.py tries them all
    wrong = []
    for name in chosen:
        kind = name.split("/")[1]
        conclusion = conclude(profile, walked(profile, name, times=2 if kind == "key-flaky" else 1))
        if not (
            conclusion.explained and conclusion.suspects and name in conclusion.suspects[0].faults
        ):
            wrong.append(name)
    assert len(faults) > 370 and not wrong


@pytest.mark.parametrize("profile", PROFILES, ids=IDS)
def test_the_true_fault_is_among_the_first_three_where_one_press_in_ten_was_a_slip(profile):
    chance = random.Random(11)
    names = [
        name
        for name in visible_faults(profile)
        if name.split("/")[1] in ("stuck", "row-open", "column-open", "shift-dead", "rows-bridged")
    ]
    for name in chance.sample(names, 25):
        came = walked(profile, name)
        for press in chance.sample(sorted(came), len(came) // 10):
            came[press] = [(bytes([chance.randrange(0x21, 0x7F)]), "")]
        suspects = conclude(profile, came).suspects[:3]
        assert any(name in suspect.faults for suspect in suspects), name


@pytest.mark.parametrize("profile", PROFILES, ids=IDS)
def test_the_quick_set_shows_every_fault_of_a_line_and_is_proved_smallest(profile):
    quick = quick_presses(profile)
    assert quick.is_smallest and not quick.unseen and len(quick.faults) > 150
    assert len(quick.presses) == max(
        profile.keyboard.rows, profile.keyboard.columns
    )  # no fewer can show the open lines
    healthy = walked(profile, presses=quick.presses)
    for name in random.Random(3).sample(quick.faults, 60):
        assert walked(profile, name, presses=quick.presses) != healthy, name
    assert "no set of" in quick.proof


@pytest.mark.parametrize("profile", PROFILES, ids=IDS)
def test_a_healthy_keyboard_has_no_suspects(profile):
    conclusion = conclude(profile, walked(profile))
    assert (
        conclusion.is_healthy
        and conclusion.explained
        and not conclusion.suspects
        and not conclusion.next
    )
    assert conclude(profile, {}).suspects == () and not conclusion.odd


@pytest.mark.parametrize("profile", PROFILES, ids=IDS)
def test_one_press_that_no_fault_predicts_is_named_and_may_be_a_slip(profile):
    heard = walked(profile) | {"press/q": [(b"5\x03z", "")]}
    conclusion = conclude(profile, heard)
    assert conclusion.is_healthy and conclusion.odd == ("press/q",)
    page = render(conclusion, {"press/q": '"Q" sends "q"'})
    assert (
        'what came of "Q" sends "q". A slip' in " ".join(page.split())
        and max(map(len, page.split("\n"))) <= 80
    )


@pytest.mark.parametrize(
    "name, change",
    [
        (
            "host/format/even",
            lambda data: bytes(code | 0x80 * (code.bit_count() & 1) for code in data),
        ),
        ("host/format/mark", lambda data: bytes(code | 0x80 for code in data)),
    ],
)
def test_a_host_that_reads_the_parity_bit_is_told_from_a_fault_of_the_board(name, change):
    came = {
        press: [(change(data), "") for data, _ in outcomes]
        for press, outcomes in walked(PROFILES[0]).items()
    }
    first = conclude(PROFILES[0], came).suspects[0]
    assert name in first.faults and first.block == "link"


def test_errors_of_every_character_point_at_the_line():
    parity = {
        press: [(data, "parity") for data, _ in outcomes]
        for press, outcomes in walked(PROFILES[0]).items()
    }
    assert "host/parity" in conclude(PROFILES[0], parity).suspects[0].faults
    framing = {
        press: [
            (data if number % 3 else b"\x7f", "" if number % 3 else "framing")
            for data, _ in outcomes
        ]
        for number, (press, outcomes) in enumerate(walked(PROFILES[0]).items())
    }
    assert "host/speed" in conclude(PROFILES[0], framing).suspects[0].faults


def test_a_keyboard_that_is_right_where_the_profile_is_wrong_is_told():
    """A typewriter-paired keyboard under a profile that says bit-paired; pairs as published, 2 @, 6 ^, 8 *."""
    came = walked(PROFILES[0])
    shifted = {
        "2": b"@",
        "6": b"^",
        "8": b"*",
        "1": b"!",
        "3": b"#",
        "4": b"$",
        "5": b"%",
        "7": b"&",
        "9": b"(",
    }
    for key, code in shifted.items():
        came[f"press/{key}+shift"] = [(code, "")]
    came["press/minus+shift"], came["press/semicolon+shift"] = [(b"_", "")], [(b":", "")]
    first = conclude(PROFILES[0], came).suspects[0]
    assert "profile/pairing/typewriter" in first.faults and first.block == "profile"
    assert "press/2+shift" in first.supports


def test_presses_for_and_against_are_named():
    came = walked(PROFILES[0], "key-matrix/row-open/3")
    came["press/x"] = [(b"c", "")]
    first = conclude(PROFILES[0], came).suspects[0]
    assert (
        first.faults == ("key-matrix/row-open/3",)
        and "press/q" in first.supports
        and first.contradicts == ("press/x",)
    )


def test_the_next_presses_decide_between_the_leading_suspects():
    came = walked(PROFILES[0], "key-matrix/row-open/3", presses=("press/q", "press/a", "press/z"))
    conclusion = conclude(PROFILES[0], came)
    assert (
        len(conclusion.suspects) > 1
        and 1 <= len(conclusion.next) <= 3
        and not set(conclusion.next) & set(came)
    )
    more = came | walked(PROFILES[0], "key-matrix/row-open/3", presses=conclusion.next)
    assert len(conclude(PROFILES[0], more).suspects[0].faults) <= len(conclusion.suspects[0].faults)


def test_what_no_single_fault_explains_is_said_not_to_be_explained():
    chance = random.Random(5)
    came = {
        press.id: [(bytes([chance.randrange(0x21, 0x7F)]), "")]
        for press in coded_presses(PROFILES[0])
    }
    assert not conclude(PROFILES[0], came).explained


def test_outcomes_come_from_the_journal_without_what_was_taken_back():
    heard = {
        "speed_baud": 9600,
        "data_bits": 7,
        "events": [[0.1, "71", ""], [0.11, "71", "parity"]],
    }
    records = [
        {"kind": "answer", "step": "press/w", "heard": heard},
        {"kind": "taken-back", "step": "press/w"},
        {"kind": "answer", "step": "press/q", "heard": heard},
        {"kind": "answer", "step": "look", "word": "differs"},
    ]
    assert outcomes_of(records) == {"press/q": [(b"qq", "parity")]}


def test_the_document_has_the_published_keys():
    document = suspects_document(
        conclude(PROFILES[0], walked(PROFILES[0], "key-matrix/shift-dead"))
    )
    assert list(document[0]) == ["class", "title", "block", "probability"]
    assert document[0]["class"] == ["key-matrix/shift-dead"] and document[0]["probability"] > 0.9


def test_every_kind_of_fault_has_a_weight():
    for profile in PROFILES:
        assert (
            all(one.weight > 0 for one in hypotheses(profile))
            and hypotheses(profile)[0].name == HEALTHY
        )
