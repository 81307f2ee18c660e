"""What was concluded of a keyboard, as a page: suspects, what speaks for each, what comes next."""

from hypothesis import given
from hypothesis import strategies as st

from helpers.reports import harmful
from termprobe.diagnosis.key_conclusion import Conclusion, Suspect
from termprobe.plan.model import Press
from termprobe.report.key_suspects import WIDTH, render


def press(letter, *modifiers):
    asked, sends = f'"{letter.upper()}"', f'"{letter}"'
    press_id = "+".join((f"press/{letter}", *modifiers))
    return Press(press_id, letter, letter.upper(), modifiers, letter.encode(), asked, sends)


PRESSES = {one.id: one for one in (press("q"), press("w"), press("e"), press("w", "shift"))}
ROW = Suspect(
    faults=("key-matrix/row-open/2",),
    title="Row 2 of the key matrix is open",
    block="keyboard matrix",
    probability=0.934,
    supports=("press/q", "press/w+shift"),
    contradicts=("press/e",),
)


def concluded(**fields):
    usual = {"explained": True, "is_healthy": False, "suspects": (), "next": ()}
    return Conclusion(**usual | fields)


def test_where_nothing_speaks_for_a_fault_there_is_no_suspect():
    page = render(concluded(is_healthy=True), PRESSES)
    assert page == "Suspects: none of the keyboard; its presses speak for no fault.\n"


def test_a_slip_of_the_hand_is_named_by_what_was_asked_for():
    page = render(concluded(is_healthy=True, odd=("press/q", "press/x")), PRESSES)
    assert " ".join(page.split()) == (
        "Suspects: none, but no fault that is known accounts for what came of "
        '"Q" sends "q", press/x. A slip of the hand does: press it again.'
    )


def test_a_suspect_with_what_speaks_for_and_against_it_and_what_to_press_next():
    page = render(concluded(suspects=(ROW,), next=("press/w", "press/r")), PRESSES)
    assert page.splitlines() == [
        "Suspects",
        "   93%  Row 2 of the key matrix is open",
        "        keyboard matrix: key-matrix/row-open/2",
        "        for: q, w+shift",
        "        against: e",
        "",
        "These presses would decide next:",
        '  "W" sends "w"',
        "  press/r",
    ]


def test_where_no_single_fault_explains_all_the_suspects_are_hints():
    lines = render(concluded(explained=False, suspects=(ROW,)), {}).splitlines()
    hint = "no single fault explains all that came, so take these as hints"
    assert lines[0] == f"Suspects; {hint}"


def test_long_lists_are_cut():
    faults = tuple(f"f{number}" for number in range(5))
    presses = tuple(f"press/{letter}" for letter in "abcdefgh")
    many = Suspect(faults, "Many", "link", 1.0, presses, presses[:5])
    asked = {press_id: press(press_id[-1]) for press_id in presses}
    lines = render(concluded(suspects=(many,)), asked).splitlines()
    assert lines[1:] == [
        "  100%  Many",
        "        link: f0, f1, f2, f3 ...",
        "        for: a, b, c, d, e and 3 more",
        "        against: a, b, c, d, e",
    ]


@given(st.text(max_size=200), st.lists(st.text(max_size=40), max_size=8).map(tuple))
def test_no_text_leaves_the_page_or_acts_on_a_console(title, presses):
    suspect = Suspect(("f",), title, "link", 0.5, presses, presses)
    asked = {one: Press(one, one, title, (), b"", title, title) for one in presses}
    for conclusion in (
        concluded(suspects=(suspect,), next=presses),
        concluded(is_healthy=True, odd=presses),
    ):
        page = render(conclusion, asked)
        assert max(map(len, page.split("\n"))) <= WIDTH
        assert not harmful(page)
