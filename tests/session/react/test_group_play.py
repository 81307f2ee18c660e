"""A step played group by group: the board has always been sent what its screen needs."""

from hypothesis import given
from hypothesis import strategies as some

from helpers.bench_plan import PROFILE, full_plan, look, plan, text
from helpers.examples import examples
from termprobe.session.react import group_play
from termprobe.terminal.reference import Reference


def played():
    made = full_plan()
    return group_play.play_of(made, made.step("more"), PROFILE)


def test_playing_forward_gives_the_screen_of_a_straight_run():
    found, sent = played(), b""
    while found.sent < len(found.groups):
        found, groups = group_play.forward(found)
        sent += b"".join(group.data for group in groups)
    straight = Reference(PROFILE)
    straight.feed(sent)
    assert found.screen.rows == straight.screen().rows == full_plan().step("more").expected.rows
    assert sent == full_plan().step("hello").data + full_plan().step("more").data, (
        "a step that goes on begins with the one before"
    )


@examples(60)
@given(
    some.lists(
        some.sampled_from(
            (group_play.forward, group_play.back, group_play.to_mark, group_play.restart)
        ),
        max_size=20,
    ),
    some.integers(0, 5),
)
def test_after_any_walk_the_board_has_been_sent_what_the_screen_needs(walk, mark):
    """Whatever was sent since the screen was last fresh must give the screen that is shown."""
    found = group_play.set_mark(played(), mark)
    reference, is_known = Reference(PROFILE), False
    for go in walk:
        found, groups = go(found)
        for group in groups:
            reference.feed(group.data)
            is_known = is_known or group.label.startswith("clear ")
        if is_known and found.sent:
            assert (
                found.screen.rows == reference.screen().rows
                and found.screen.cursor == reference.screen().cursor
            )


def test_running_to_the_mark_stops_there_then_goes_to_the_end():
    found, groups = group_play.to_mark(group_play.set_mark(played(), 2))
    assert (found.sent, len(groups)) == (2, 2)
    found, groups = group_play.to_mark(found)
    assert found.sent == len(found.groups)
    assert (
        group_play.set_mark(found, found.sent).mark == found.sent
        and group_play.set_mark(group_play.set_mark(found, 1), 1).mark is None
    )


def moving():
    """Return the play of a step whose chain has a switch moved and moved back."""
    full, half = (("duplex", "full"),), (("duplex", "half"),)
    first = look("first", "screen", text("A"), settings=full)
    second = look("second", "screen", text("B"), continues=True, settings=half)
    third = look("third", "screen", text("C"), continues=True, settings=full)
    made = plan(first, second, third)
    return group_play.play_of(made, made.step("third"), PROFILE)


def test_a_switch_is_moved_where_a_step_of_the_chain_wants_it_elsewhere():
    found, done = moving(), []
    while found.sent < len(found.groups):
        found, groups = group_play.to_mark(found)
        done.append([group.label.split(" 1A")[0] for group in groups])
    assert done == [
        ["set duplex to full"],
        ["clear", 'text "A"'],
        ["set duplex to half"],
        ['text "B"'],
        ["set duplex to full"],
        ['text "C"'],
    ]


def test_back_over_a_moved_switch_waits_for_it_to_be_moved_and_goes_on_to_where_it_was_to_be():
    found = moving()
    while found.sent < 5:
        found, _ = group_play.forward(found)
    found, groups = group_play.back(found)
    assert (found.sent, groups, found.mark) == (0, (), 4)
    while found.sent < 4:
        found, _ = group_play.to_mark(found)
    assert found.groups[3].label == "set duplex to half"


def test_where_all_of_a_chain_wants_a_switch_alike_it_is_not_moved():
    half = (("duplex", "half"),)
    first = look("first", "screen", text("A"), settings=half)
    made = plan(first, look("second", "screen", text("B"), continues=True, settings=half))
    found = group_play.play_of(made, made.step("second"), PROFILE)
    assert all(group.data for group in found.groups)
