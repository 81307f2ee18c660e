"""What is concluded of keys that are held too long, of a fixed parity bit, of exchanged lines; and the presses that tell faults apart."""

import dataclasses

import pytest

from termprobe.board.keyboard_board import simulate
from termprobe.diagnosis.key_hypotheses import hypotheses
from termprobe.diagnosis.key_conclusion import conclude, outcomes_of
from termprobe.diagnosis.key_sets import quick_presses, telling_presses
from termprobe.plan.presses import coded_presses
from termprobe.profile.load import load

BIT_PAIRED, TYPEWRITER = load("singlebyte-24x80"), load("ecma48-24x80")
FEW = "1 2 3 q w e a s d left-shift control".split()


def small(profile):
    """Return the profile with a few of its keys only."""
    keys = tuple(key for key in profile.keyboard.keys if key.name in FEW)
    return dataclasses.replace(profile, keyboard=dataclasses.replace(profile.keyboard, keys=keys))


SMALL = small(BIT_PAIRED)


def journal(profile, hold_s, *faults, keys=None):
    """Return the records that a walk with keys held so long leaves."""
    board = simulate(profile, faults)
    presses = [press for press in coded_presses(profile) if keys is None or press.key in keys]
    events = {
        press.id: board.press(press.key, frozenset(press.modifiers), hold_s=hold_s)
        for press in presses
    }
    return [
        {
            "kind": "answer",
            "step": press,
            "heard": {"events": [[at_s, data.hex(), ""] for at_s, data in came]},
        }
        for press, came in events.items()
    ]


@pytest.mark.parametrize("hold_s", [0.1, 0.55, 0.6, 2.0])
def test_keys_held_until_they_repeat_speak_for_no_fault(hold_s):
    records = journal(TYPEWRITER, hold_s, keys="asdf")
    assert (sum(len(record["heard"]["events"]) for record in records) > len(records)) == (
        hold_s > 0.5
    )
    assert conclude(TYPEWRITER, outcomes_of(records)).is_healthy


@pytest.mark.parametrize("hold_s", [0.1, 1.0])
def test_a_key_that_bounces_and_repeats_is_still_one_that_bounces(hold_s):
    conclusion = conclude(
        TYPEWRITER,
        outcomes_of(journal(TYPEWRITER, hold_s, "key-matrix/key-bounces/a", keys="asdf")),
    )
    assert conclusion.suspects[0].faults == ("key-matrix/key-bounces/a",)


def test_another_key_s_code_after_a_pause_is_kept():
    events = [[0.0, "61", ""], [0.6, "61", ""], [0.667, "73", ""], [0.733, "61", ""]]
    assert outcomes_of([{"kind": "answer", "step": "press/a", "heard": {"events": events}}]) == {
        "press/a": [(b"as", "")]
    }


@pytest.mark.parametrize("level, name", [(1, "host/parity/mark"), (0, "host/parity/space")])
def test_a_fixed_parity_bit_gives_errors_where_even_parity_would_be_the_other_level(level, name):
    """Even parity makes the number of ones even, its own bit counted: the bit is 1 where the code has an odd number of ones."""
    came = {
        press.id: [(press.code, "parity" if press.code[0].bit_count() % 2 != level else "")]
        for press in coded_presses(SMALL)
    }
    assert BIT_PAIRED.link.parity == "even" and {error for ((_, error),) in came.values()} == {
        "",
        "parity",
    }
    assert name in conclude(SMALL, came).suspects[0].faults


@pytest.mark.parametrize("profile", [BIT_PAIRED, TYPEWRITER], ids=lambda profile: profile.id)
@pytest.mark.parametrize("name", ["key-matrix/rows-swapped/0-3", "key-matrix/columns-swapped/2-5"])
def test_exchanged_lines_of_the_matrix_are_named(profile, name):
    conclusion = conclude(profile, outcomes_of(journal(profile, 0.05, name)))
    assert (
        conclusion.explained
        and conclusion.suspects[0].faults == (name,)
        and conclusion.suspects[0].probability > 0.99
    )


@pytest.fixture(scope="module")
def few():
    """The faults of lines of a small keyboard, the healthy one first, and the presses that show and that tell them."""
    found = hypotheses(SMALL)
    quick, telling = quick_presses(SMALL), telling_presses(SMALL)
    return [found[0], *(one for one in found if one.name in quick.faults)], quick, telling


def test_the_presses_that_tell_apart_do_as_much_as_all_presses(few):
    lines, quick, telling = few

    def classes(presses):
        return len({tuple(one.sends[press] for press in presses) for one in lines})

    assert classes(telling.presses) == classes(lines[0].sends)
    assert (
        len(quick.presses) <= len(telling.presses) < len(lines[0].sends)
        and telling.lower_bound >= quick.lower_bound
    )


def test_no_press_of_either_set_can_be_left_out(few):
    lines, quick, telling = few
    for chosen in (quick, telling):
        whole = len({tuple(one.sends[press] for press in chosen.presses) for one in lines})
        for left_out in chosen.presses:
            rest = [press for press in chosen.presses if press != left_out]
            shown = all(
                any(one.sends[press] != lines[0].sends[press] for press in rest)
                for one in lines[1:]
            )
            assert (
                not shown
                if chosen is quick
                else len({tuple(one.sends[press] for press in rest) for one in lines}) < whole
            )


def test_the_proof_says_what_was_proved(few):
    lines, quick, telling = few
    assert (
        quick.proof
        == f"{len(quick.presses)} presses show all {len(lines) - 1} faults of lines; no set of {len(quick.presses) - 1} does"
    )
    assert telling.proof.startswith(
        f"{len(telling.presses)} presses tell apart the {len(lines) - 1} faults of lines; "
    )
