"""Each fault of the keyboard changes the presses that it should, and no others.

It is worked out from where the keys stand.
"""

import dataclasses
import re
from math import comb

import pytest

from helpers.boards import sent
from helpers.keyboards import LISTED, NAMES, PROFILES, walk
from termprobe.board.board import Board
from termprobe.board.faults.catalogue import catalogue, fault, keyboard_catalogue
from termprobe.board.faults.key_matrix import neighbours
from termprobe.board.keyboard_board import simulate
from termprobe.errors import UsageError
from termprobe.plan.presses import listed_presses

FAULTS = {name: keyboard_catalogue(profile) for name, profile in PROFILES.items()}
SINGLE, ECMA = (PROFILES[name] for name in NAMES)
HEALTHY = {name: walk(profile) for name, profile in PROFILES.items()}


def changed(profile, name):
    """Return press id -> codes for the presses that differ from those of a healthy keyboard."""
    healthy = HEALTHY[profile.id]
    return {press: codes for press, codes in walk(profile, name).items() if codes != healthy[press]}


def keys_changed(profile, name):
    found = changed(profile, name)
    return {press.key for press in LISTED[profile.id] if press.id in found}


def names_at(profile, **line):
    ((kind, number),) = line.items()
    return {
        key.name
        for key in profile.keyboard.keys
        if key.matrix and key.matrix[kind == "column"] == number
    }


def crossing_of(profile, name):
    return profile.keyboard.key(name).matrix


def keys_by_crossing(profile):
    return {key.matrix: key for key in profile.keyboard.keys if key.matrix}


def on_line(crossing, side, line):
    """Return the crossing moved to another row (`side` 0) or column (1)."""
    moved = list(crossing)
    moved[side] = line
    return tuple(moved)


@pytest.mark.parametrize("name", NAMES)
def test_the_catalogue_counts_what_the_keyboard_has(name):
    keyboard = PROFILES[name].keyboard
    codes = sum(key.role == "code" for key in keyboard.keys)
    kinds = [fault.split("/")[1] for fault in FAULTS[name] if fault.startswith("key-matrix")]
    assert (
        kinds.count("row-open") == keyboard.rows and kinds.count("column-open") == keyboard.columns
    )
    assert kinds.count("rows-bridged") == kinds.count("rows-swapped") == comb(keyboard.rows, 2)
    assert (
        kinds.count("columns-bridged")
        == kinds.count("columns-swapped")
        == comb(keyboard.columns, 2)
    )
    assert (
        kinds.count("key-dead") == codes + 1
        and kinds.count("key-bounces") == kinds.count("key-flaky") == codes
    )
    assert kinds.count("keys-swapped") == len(neighbours(keyboard)) > 40
    assert kinds.count("diode-shorted") == codes * keyboard.diodes
    assert {"shift-dead", "shift-stuck", "control-dead", "control-stuck"} <= set(kinds)
    assert sum(fault.startswith("keyboard-code/") for fault in FAULTS[name]) == 14 + 21 + 42


@pytest.mark.parametrize("name", NAMES)
def test_names_blocks_and_titles(name):
    titles = [fault.title for fault in FAULTS[name].values()]
    assert len(set(titles)) == len(titles) and all(title.isprintable() for title in titles)
    for known, found in FAULTS[name].items():
        assert (found.name, found.block) == (known, known.split("/")[0])
        assert re.fullmatch(
            r"(key-matrix|keyboard-code)/[a-z-]+(/[a-z0-9-]+(/(0|1|low|high))?)?", known
        )


def test_a_whole_board_has_the_same_faults_of_its_keyboard():
    of_board = {
        name
        for name, found in catalogue(SINGLE).items()
        if found.block in ("key-matrix", "keyboard-code")
    }
    assert of_board == set(FAULTS["singlebyte-24x80"])


def test_any_two_keys_can_be_named_in_either_order_though_names_hold_hyphens():
    assert (
        fault(ECMA, "key-matrix/keys-swapped/right-bracket-left-bracket").name
        == "key-matrix/keys-swapped/left-bracket-right-bracket"
    )
    assert (
        fault(SINGLE, "key-matrix/keys-swapped/line-feed-a").name
        == "key-matrix/keys-swapped/a-line-feed"
    )
    assert walk(SINGLE, "key-matrix/keys-swapped/line-feed-a")["press/a"] == (b"\n",)


@pytest.mark.parametrize(
    "name",
    [
        "key-matrix/keys-swapped/a-a",
        "key-matrix/keys-swapped/a-nokey",
        "key-matrix/keys-swapped/a-left-shift",
        "key-matrix/row-open/8",
        "key-matrix/rows-bridged/5-2",
        "key-matrix/diode-shorted/0-0",
        "key-matrix/key-dead/\x1b[2J",
        "key-matrix",
        "nonsense",
    ],
)
def test_a_name_that_is_none_is_refused_and_harmless(name):
    with pytest.raises(UsageError) as refusal:
        simulate(SINGLE, [name])
    assert str(refusal.value).isprintable()
    with pytest.raises(UsageError):
        Board(SINGLE, [name])


def test_without_a_keyboard_there_are_no_faults_of_one():
    bare = dataclasses.replace(SINGLE, keyboard=None)
    assert keyboard_catalogue(bare) == {} and not any(
        name.startswith("key-matrix") for name in catalogue(bare)
    )
    assert listed_presses(bare) == ()
    with pytest.raises(UsageError, match="keyboard"):
        simulate(bare)


@pytest.mark.parametrize("profile", PROFILES.values(), ids=NAMES)
def test_an_open_line_makes_exactly_its_keys_silent(profile):
    for kind, count in (("row", profile.keyboard.rows), ("column", profile.keyboard.columns)):
        for line in range(count):
            name = f"key-matrix/{kind}-open/{line}"
            assert keys_changed(profile, name) == names_at(profile, **{kind: line})
            assert set(changed(profile, name).values()) == {()}


@pytest.mark.parametrize("profile", PROFILES.values(), ids=NAMES)
def test_bridged_lines_send_both_keys_codes_wherever_the_other_line_has_a_key(profile):
    for name in FAULTS[profile.id]:
        parts = re.fullmatch(r"key-matrix/(row|column)s-bridged/(\d+)-(\d+)", name)
        if not parts:
            continue
        side = parts[1] == "column"
        pair = {int(parts[2]), int(parts[3])}
        at = keys_by_crossing(profile)
        twins = {}
        for crossing, key in at.items():
            if crossing[side] in pair:
                (other,) = pair - {crossing[side]}
                twins[key.name] = at.get(on_line(crossing, side, other))
        assert keys_changed(profile, name) == {key for key, twin in twins.items() if twin}
        for press, codes in changed(profile, name).items():
            if "+" not in press:
                key = press.removeprefix("press/")
                assert sorted(codes) == sorted(
                    (bytes(profile.keyboard.key(key).code), bytes(twins[key].code))
                )


@pytest.mark.parametrize("profile", PROFILES.values(), ids=NAMES)
def test_exchanged_lines_give_each_key_the_code_of_its_crossing_on_the_other_line(profile):
    at = keys_by_crossing(profile)
    for side, kind in ((0, "rows"), (1, "columns")):
        came = walk(profile, f"key-matrix/{kind}-swapped/1-3")
        for crossing, key in at.items():
            line = {1: 3, 3: 1}.get(crossing[side], crossing[side])
            there = at.get(on_line(crossing, side, line))
            expected = tuple(bytes(one.code) for one in [there] if one)
            if key.role == "code":
                assert came[f"press/{key.name}"] == expected


@pytest.mark.parametrize("profile", PROFILES.values(), ids=NAMES)
def test_a_dead_key_is_silent_and_a_bouncing_one_sends_twice_within_25_ms(profile):
    for key in (key for key in profile.keyboard.keys if key.role in ("code", "break")):
        assert set(changed(profile, f"key-matrix/key-dead/{key.name}").values()) == {()}
        assert keys_changed(profile, f"key-matrix/key-dead/{key.name}") == {key.name}
    for key in (key for key in profile.keyboard.keys if key.role == "code"):
        (first_s, first), (second_s, second) = simulate(
            profile, [f"key-matrix/key-bounces/{key.name}"]
        ).press(key.name)
        assert first == second == key.code and 0 < second_s - first_s < 0.025
        assert keys_changed(profile, f"key-matrix/key-bounces/{key.name}") == {key.name}


@pytest.mark.parametrize("profile", PROFILES.values(), ids=NAMES)
def test_a_flaky_key_makes_contact_at_every_second_press(profile):
    for key in (key for key in profile.keyboard.keys if key.role == "code"):
        keys = simulate(profile, [f"key-matrix/key-flaky/{key.name}"])
        assert [bool(keys.press(key.name)) for _ in range(6)] == [True, False] * 3


@pytest.mark.parametrize("profile", PROFILES.values(), ids=NAMES)
def test_exchanged_keys_send_each_others_codes(profile):
    for first, second in neighbours(profile.keyboard):
        came = walk(profile, f"key-matrix/keys-swapped/{first}-{second}")
        assert came[f"press/{first}"] == HEALTHY[profile.id][f"press/{second}"]
        assert came[f"press/{second}"] == HEALTHY[profile.id][f"press/{first}"]
        assert keys_changed(profile, f"key-matrix/keys-swapped/{first}-{second}") == {first, second}


@pytest.mark.parametrize("profile", PROFILES.values(), ids=NAMES)
def test_a_dead_modifier_leaves_the_plain_codes_and_a_stuck_one_the_modified(profile):
    for line in ("shift", "control"):
        dead, stuck = (
            changed(profile, f"key-matrix/{line}-dead"),
            changed(profile, f"key-matrix/{line}-stuck"),
        )
        for press in LISTED[profile.id]:
            if line in press.modifiers:
                without = tuple(modifier for modifier in press.modifiers if modifier != line)
                same = simulate(profile).press(press.key, without)
                assert dead.get(press.id, HEALTHY[profile.id][press.id]) == tuple(
                    data for _, data in same
                )
                assert press.id not in stuck
            else:
                assert press.id not in dead
        assert (
            f"press/a+{line}" in dead and stuck["press/a"] == HEALTHY[profile.id][f"press/a+{line}"]
        )


def test_a_shorted_diode_shows_in_three_keys_only():
    row, column = crossing_of(ECMA, "a")
    name = f"key-matrix/diode-shorted/{row}-{column}"
    assert changed(ECMA, name) == {}
    a, s, d, f = (crossing_of(ECMA, key) for key in "asdf")
    assert (a[0], a[1], s[1], d[0]) == (d[0], s[1], a[1], a[0]) and f == (
        s[0],
        d[1],
    )  # the four are a rectangle
    assert [data for _, data in simulate(ECMA, [name]).chord(["a", "s", "d"])] == [
        b"a",
        b"s",
        b"d",
        b"f",
    ]
    assert [data for _, data in simulate(ECMA, [name]).chord(["s", "a", "f"])] == [b"s", b"a", b"f"]
    assert [data for _, data in simulate(ECMA).chord(["a", "s", "d"])] == [b"a", b"s", b"d"]


@pytest.mark.parametrize("profile", PROFILES.values(), ids=NAMES)
def test_every_fault_shows_in_a_walk_done_twice_but_for_diodes_which_need_chords(profile):
    twice = walk(profile, times=2)
    once = {
        name
        for name, found in FAULTS[profile.id].items()
        if walk(profile, found) == HEALTHY[profile.id]
    }
    assert {name.split("/")[1] for name in once} <= {"key-flaky", "diode-shorted"}
    silent = {name for name in once if walk(profile, FAULTS[profile.id][name], times=2) == twice}
    assert silent == {name for name in FAULTS[profile.id] if "diode-shorted" in name}


def test_faults_act_together():
    came = walk(
        SINGLE,
        "key-matrix/keys-swapped/a-s",
        "key-matrix/keys-swapped/s-d",
        "keyboard-code/stuck/0/1",
    )
    assert [came[f"press/{key}"] for key in "asd"] == [
        (b"s",),
        (b"e",),
        (b"a",),
    ]  # a closes S; s closes D; d closes A


def test_a_board_obeys_the_same_fault_by_name():
    board = Board(SINGLE, ["key-matrix/rows-bridged/2-4"])
    board.press("a")
    assert sent(board) == b"\ta"
    board = Board(SINGLE, ["key-matrix/shift-stuck"])
    board.type("aA1")
    assert sent(board) == b"AA!"
