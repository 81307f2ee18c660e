from termprobe.runner.pace import SLOWEST, slower


def test_each_wish_for_slower_sending_doubles_the_time_up_to_a_limit():
    assert (slower(1.0), slower(2.0)) == (2.0, 4.0)
    assert slower(SLOWEST) == slower(SLOWEST / 1.5) == SLOWEST == 64
